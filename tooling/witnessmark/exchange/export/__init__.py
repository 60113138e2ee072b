"""What a museum publishes, for programs of others: tables and linked data."""
