"""Answers to marks."""
