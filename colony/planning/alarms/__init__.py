"""What is dangerous today, from every subject of planning."""
