"""The values that differ from student to student, from drill's own random number stream."""
