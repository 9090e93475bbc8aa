"""The words and the grammar of a unit, place by place: what rules about language have in common."""
