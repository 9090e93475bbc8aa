"""A unit's Markdown file as a tree of lessons, activities and passages that know where every character came from."""
