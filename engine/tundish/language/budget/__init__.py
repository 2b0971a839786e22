"""What evaluating an expression may cost."""
