"""JSON Schema of what is read and put out."""
