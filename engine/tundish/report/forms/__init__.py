"""Files to fill in: starter jobs, survey forms, sheets, rule templates."""
