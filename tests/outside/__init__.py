"""What others published or compute, beside what the program computes."""
