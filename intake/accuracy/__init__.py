"""How well tags are read: readings compared with a truth that a person wrote down."""
