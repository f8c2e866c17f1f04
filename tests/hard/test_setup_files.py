"""The short form of `setup_files`."""

from tests.hard import how_many, setup_files


def test_every_file_is_read_or_refused_and_nothing_is_lost():
    counts = setup_files.run(how_many(150, 20_000), seed=how_many(7, 1))
    # A search that only ever meets one end of the road tests nothing.
    assert min(counts["refused"], counts["kept"]) > 0.2 * sum(counts.values())
