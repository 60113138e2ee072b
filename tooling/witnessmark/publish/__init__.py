"""What the public sees, and the pages it is shown on."""
