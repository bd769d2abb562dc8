"""What a job costs: materials with their waste, hardware, glue, finish, blades, hours; see `job_costs`."""
