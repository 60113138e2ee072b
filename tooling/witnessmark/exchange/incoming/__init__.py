"""Lists from elsewhere, row by row, into records; pure, so that a dry run is the run itself."""
