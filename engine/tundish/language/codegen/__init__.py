"""Python text made of typed trees."""
