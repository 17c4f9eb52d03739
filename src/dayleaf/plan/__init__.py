"""The year laid over a family's calendar."""
