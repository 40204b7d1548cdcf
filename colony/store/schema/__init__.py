"""The schema, one script a version."""
