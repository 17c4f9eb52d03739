"""The course: skills, chapters, days, guides, materials; read from data files and checked for meaning."""
