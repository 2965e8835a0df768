"""What a method promises, held against whole numbers, decimal, brute force and published values."""
