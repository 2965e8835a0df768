"""One module a lesson, of the lesson's name: its `EXERCISES`, and the machines that answer them."""
