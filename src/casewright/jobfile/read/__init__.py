"""From a job file's text to the job, or to every reason why not, each with its line."""
