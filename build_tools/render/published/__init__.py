"""What programs read: JSON and CSV files with their schemas, the data package, how to cite; each checked against its own schema."""
