"""No circle between files: whoever reads one file never has to read it again to understand it."""

import grimp
from no_circles import circles


def test_no_file_of_the_program_imports_itself_by_a_detour() -> None:
    """Neither when it is loaded, nor when a function is called, nor to name a type."""
    assert circles(grimp.build_graph("colony", cache_dir=None), "colony") == []


def test_a_circle_is_found() -> None:
    """Three files that lead back to the first are one group; what they import is none."""
    graph = grimp.ImportGraph()
    for importer, imported in (("p.a", "p.b"), ("p.b", "p.c"), ("p.c", "p.a"), ("p.c", "p.d")):
        graph.add_import(importer=importer, imported=imported)
    assert circles(graph, "p") == [["p.a", "p.b", "p.c"]]
