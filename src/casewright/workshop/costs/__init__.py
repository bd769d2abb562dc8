"""What a job costs: materials with their waste, hardware, glue, finish, blades, hours. Start at `job_costs`."""
