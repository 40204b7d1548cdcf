"""The schema scripts, oldest first."""
