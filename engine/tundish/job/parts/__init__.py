"""The parts of an installation, a module each."""
