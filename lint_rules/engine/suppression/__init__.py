"""What lets a finding stand: stets and carried findings; and mends."""
