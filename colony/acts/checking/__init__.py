"""What `book check` looks at, one subject a file."""
