"""From a job to the text of a job file that reads back as the same job."""
