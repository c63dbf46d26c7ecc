"""What is grown: crop templates, their fields, stages and wishes; seed and yields."""
