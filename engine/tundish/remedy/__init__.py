"""What would mend a finding, and the fewest changes that clear a job."""
