"""What a museum writes, as typed values with the place of every word."""
