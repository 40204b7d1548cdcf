"""No circle between files: whoever reads one file never has to read it again to understand it."""

import grimp
import networkx as nx


def circles(package: str) -> list[list[str]]:
    """The files that import each other, those that do so inside functions or for types included."""
    graph = grimp.build_graph(package, cache_dir=None)
    arrows = nx.DiGraph()
    for module in graph.modules:
        arrows.add_edges_from(
            (module, imported) for imported in graph.find_modules_directly_imported_by(module)
        )
    found = nx.strongly_connected_components(arrows)
    return sorted(sorted(files) for files in found if len(files) > 1)


def test_no_file_of_the_program_imports_itself_by_a_detour() -> None:
    """Neither when it is loaded, nor when a function is called, nor to name a type."""
    assert circles("colony") == []
