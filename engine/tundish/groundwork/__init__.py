"""What all rooms stand on."""
