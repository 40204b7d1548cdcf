"""The import rule that no file imports itself by a detour, for import-linter and for a test."""

import networkx as nx
from grimp import ImportGraph
from importlinter import Contract, ContractCheck, output


def circles(graph: ImportGraph, package: str) -> list[list[str]]:
    """The files of a package that import each other, in groups."""
    arrows = nx.DiGraph()
    for module in graph.modules:
        arrows.add_edges_from(
            (module, imported) for imported in graph.find_modules_directly_imported_by(module)
        )
    found = nx.strongly_connected_components(arrows)
    inside = f"{package}."
    return sorted(
        sorted(files)
        for files in found
        if len(files) > 1 and any(file.startswith(inside) for file in files)
    )


class NoCircles(Contract):
    """Holds what is loaded; imports for types alone are left out of the graph it is given."""

    type_name = "no_circles"

    def check(self, graph: ImportGraph, verbose: bool) -> ContractCheck:  # noqa: ARG002 - as import-linter calls it
        """Look for files that import each other."""
        found = circles(graph, str(self.session_options["root_packages"][0]))
        return ContractCheck(kept=not found, metadata={"circles": found})

    def render_broken_contract(self, check: ContractCheck) -> None:
        """Name the files of each circle."""
        for files in check.metadata["circles"]:
            output.print_error(f"These import each other: {', '.join(files)}.")
