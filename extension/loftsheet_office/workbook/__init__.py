"""The rigging schedule as it is read: by its named ranges and by nothing else."""
