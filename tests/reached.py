"""Which functions and classes of the product a maker's script can reach, by reading names alone.

A definition is reached when reached code names it: a name is followed through imports to where it
is defined. What runs when a module is imported (constants, registrations) counts with its module.
It errs on the side of reached: a class is reached with all its methods.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parent.parent
Named = tuple[str, str]
"""A module and a name at its top level; the name is empty for what runs on import."""

_DEFINED = (ast.FunctionDef, ast.ClassDef)


@cache
def reached() -> frozenset[Named]:
    """All that a maker's scripts can reach: those in models/, and what others may import."""
    todo: list[Named] = [(f"models.{path.stem}", "") for path in (ROOT / "models").glob("*.py")]
    todo.append(("exporters.pictures.scene", ""))  # run as a process of its own
    todo.append(("exporters.compare.variants", "compare"))  # called from a maker's own script
    todo += filter(None, (home_of("furniture", name) for name in _offered("furniture")))
    found: set[Named] = set()
    while todo:
        each = todo.pop()
        if each in found:
            continue
        found.add(each)
        todo += _named_by(each)
    return frozenset(found)


@cache
def defined() -> frozenset[Named]:
    """Every function and class at the top level of a module of the product."""
    paths = [*(ROOT / "furniture").rglob("*.py"), *(ROOT / "exporters").rglob("*.py")]
    modules = (".".join(path.relative_to(ROOT).with_suffix("").parts) for path in paths)
    return frozenset(
        (module, node.name)
        for module in modules
        if not module.endswith("__init__")
        for node in _tree(module).body
        if isinstance(node, _DEFINED)
    )


def home_of(module: str, name: str) -> Named | None:
    """Where a name that a module of the product offers is defined; none for what is not ours."""
    if not _exists(module):
        return None
    source = _imports(module).get(name)
    if source and source != (module, name):
        return home_of(*source)
    if name not in _names(module) and _exists(f"{module}.{name}"):
        return (f"{module}.{name}", "")
    return (module, name)


def _named_by(each: Named) -> Iterator[Named]:
    module, name = each
    if not _exists(module):
        return
    yield (module, "")
    parent = module.rpartition(".")[0]
    if parent:
        yield (parent, "")
    imports = _imports(module)
    if not name:
        yield from ((module, registered) for registered in _registered(module))
    for node in _nodes(each):
        for used in ast.walk(node):
            if isinstance(used, ast.Name):
                yield from _followed(module, used.id)
            elif isinstance(used, ast.Attribute) and isinstance(used.value, ast.Name):
                owner = imports.get(used.value.id)
                home = home_of(*owner) if owner else None
                if home and not home[1]:
                    yield from filter(None, [home_of(home[0], used.attr)])
            elif isinstance(used, ast.ImportFrom | ast.Import):
                yield from ((found[0], "") for found in _from(used, module).values())


def _followed(module: str, name: str) -> Iterator[Named]:
    if name in _imports(module) or name in _names(module):
        home = home_of(module, name)
        if home:
            yield home


def _nodes(each: Named) -> list[ast.AST]:
    """The definition of a name; for a module itself, what runs when it is imported."""
    module, name = each
    body = _tree(module).body
    if name:
        return [node for node in body if name in _binds(node)]
    return [node for node in body if not isinstance(node, (*_DEFINED, ast.Assign, ast.AnnAssign))]


def _registered(module: str) -> Iterator[str]:
    """The functions that stand in a registry from the moment their module is imported."""
    for node in _tree(module).body:
        if isinstance(node, ast.FunctionDef) and any(
            "register" in ast.unparse(each) for each in node.decorator_list
        ):
            yield node.name


def _binds(node: ast.stmt) -> set[str]:
    if isinstance(node, _DEFINED):
        return {node.name}
    if isinstance(node, ast.Assign):
        return {
            n.id for target in node.targets for n in ast.walk(target) if isinstance(n, ast.Name)
        }
    if isinstance(node, ast.AnnAssign | ast.AugAssign):
        return {n.id for n in ast.walk(node.target) if isinstance(n, ast.Name)}
    if isinstance(node, ast.If | ast.Try):
        return {name for inner in node.body for name in _binds(inner)}
    return set()


@cache
def _names(module: str) -> frozenset[str]:
    return frozenset(name for node in _tree(module).body for name in _binds(node))


@cache
def _imports(module: str) -> dict[str, Named]:
    found: dict[str, Named] = {}
    for node in ast.walk(_tree(module)):
        if isinstance(node, ast.ImportFrom | ast.Import):
            found |= _from(node, module)
    return found


def _from(node: ast.ImportFrom | ast.Import, module: str) -> dict[str, Named]:
    if isinstance(node, ast.ImportFrom):
        source = node.module or ""
        if [alias.name for alias in node.names] == ["*"]:
            return {name: (source, name) for name in _offered(source)}
        return {alias.asname or alias.name: (source, alias.name) for alias in node.names}
    return {
        alias.asname: (package, name)
        for alias in node.names
        for package, _, name in [alias.name.rpartition(".")]
        if alias.asname and package
    }


def _offered(module: str) -> set[str]:
    return set(_imports(module)) | set(_names(module)) if _exists(module) else set()


def _path(module: str) -> Path:
    base = ROOT.joinpath(*module.split("."))
    return base / "__init__.py" if base.is_dir() else base.with_suffix(".py")


@cache
def _exists(module: str) -> bool:
    return module.split(".")[0] in {"furniture", "exporters", "models"} and (
        module == "models" or _path(module).exists()
    )


@cache
def _tree(module: str) -> ast.Module:
    path = _path(module)
    return ast.parse(path.read_text(encoding="utf-8") if path.exists() else "")
