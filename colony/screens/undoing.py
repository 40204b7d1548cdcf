"""Take the last act back, and say what was taken back."""
