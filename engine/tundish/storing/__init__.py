"""What is kept from one run to the next: nothing but what can be made anew at any time."""
