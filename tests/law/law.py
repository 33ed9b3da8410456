#!/usr/bin/env python3
"""law.py ROOT RULE… - holds the source tree against its own rules. Standard library only.

  includes  every #include and every CMake link of src/ against the module tables of ARCHITECTURE.md
  headers   every header opens with an essay that names it
  purity    no printing, disk, clock, chance, changing globals or ending of the program in the engine
  words     no unfinished marks, no addresses of package registries, no paths of one machine, no document that is not there

Prints `file:line: what is wrong` a miss and exits 1; silent and 0 when the law is kept.
"""
import os
import pathlib
import re
import sys

STANDARD = set("""algorithm any array atomic barrier bit bitset cassert cctype cerrno cfenv cfloat charconv chrono cinttypes climits clocale cmath
compare complex concepts condition_variable coroutine csetjmp csignal cstdarg cstddef cstdint cstdio cstdlib cstring ctime cuchar cwchar cwctype
deque exception execution filesystem forward_list fstream functional future initializer_list iomanip ios iosfwd iostream istream iterator
latch limits list locale map memory memory_resource mutex new numbers numeric optional ostream queue random ranges ratio regex scoped_allocator
semaphore set shared_mutex source_location span sstream stack stdexcept stop_token streambuf string string_view syncstream system_error thread
tuple type_traits typeindex typeinfo unordered_map unordered_set utility valarray variant vector version""".split())
NOT_OURS = {".git", ".cache", "node_modules", "__pycache__", "dist"}
ENGINE_LEAVES_OUT = {"cli", "http", "store"}  # these three meet the world


class Miss(Exception):
    """The law itself cannot be read."""


def files_below(root, folder, endings):
    for directory, folders, names in os.walk(root / folder):
        folders[:] = sorted(f for f in folders if f not in NOT_OURS and not f.startswith("build"))
        for name in sorted(names):
            if name.endswith(endings):
                yield pathlib.Path(directory) / name


def lines_of(path):
    return path.read_text(encoding="utf-8", errors="replace").splitlines()


def table_below(text, first_column):
    """Rows of the markdown table whose first heading is `first_column`, as lists of cells without backquotes."""
    rows, inside = [], False
    for line in text.splitlines():
        cells = [cell.strip() for cell in line.strip().strip("|").split("|")] if line.lstrip().startswith("|") else []
        if cells and cells[0] == first_column:
            inside = True
        elif inside and not cells:
            break
        elif inside and not set(cells[0]) <= {"-", ":", " "}:
            rows.append([cell.replace("`", "") for cell in cells])
    if not rows:
        raise Miss(f"ARCHITECTURE.md has no table that begins with `{first_column}`")
    return rows


class Law:
    """The two tables: what each module may include (closed over what those include), and who owns which library."""

    def __init__(self, root):
        text = (root / "ARCHITECTURE.md").read_text(encoding="utf-8")
        self.state, self.named = {}, {}
        for module, state, may, *_ in table_below(text, "module"):
            if state not in ("here", "planned"):
                raise Miss(f"ARCHITECTURE.md: module {module}: state is `{state}`, neither here nor planned")
            self.state[module] = state
            self.named[module] = [] if may in ("–", "-", "") else may.replace(",", " ").split()
        for module, named in self.named.items():
            for other in named:
                if other not in self.state:
                    raise Miss(f"ARCHITECTURE.md: {module} names {other}, which has no row")
        self.may = {module: self._closure(module, ()) for module in self.state}
        self.headers, self.targets = {}, {}
        for library, prefixes, targets, modules, *_ in table_below(text, "library"):
            owners = set(modules.split())
            if not owners <= set(self.state):
                raise Miss(f"ARCHITECTURE.md: library {library}: no such module among {modules}")
            for prefix in prefixes.split():
                self.headers[prefix] = owners
            for target in targets.replace("–", "").split():
                self.targets[target] = owners

    def _closure(self, module, path):
        if module in path:
            raise Miss("ARCHITECTURE.md: a circle: " + " → ".join((*path, module)))
        found = set()
        for other in self.named[module]:
            found |= {other} | self._closure(other, (*path, module))
        return found


def links_of(cmake_text):
    """(line, module, linked) for every bloomset_module and target_link_libraries call."""
    bare = re.sub(r"#[^\n]*", lambda m: " " * len(m.group()), cmake_text)
    for call in re.finditer(r"\b(bloomset_module|target_link_libraries)\s*\(([^)]*)\)", bare):
        words = [(w.group(), bare.count("\n", 0, call.start(2) + w.start()) + 1) for w in re.finditer(r"[^\s()]+", call.group(2))]
        if not words:
            continue
        module, collecting = words[0][0], call.group(1) == "target_link_libraries"
        for word, line in words[1:]:
            if word in ("PUBLIC", "PRIVATE", "INTERFACE"):
                collecting = True
            elif word == "SOURCES":
                collecting = False
            elif collecting:
                yield line, module, word


def check_includes(root):
    law = Law(root)
    src = root / "src"
    folders = sorted(p.name for p in src.iterdir() if p.is_dir() and any(files_below(src, p.name, (".cpp", ".hpp", "CMakeLists.txt"))))
    for module in folders:
        if module not in law.state:
            yield f"src/{module}: a module that ARCHITECTURE.md's table lacks"
        elif law.state[module] == "planned":
            yield f"src/{module}: has code, but ARCHITECTURE.md calls it planned"
    for module, state in law.state.items():
        if state == "here" and module not in folders:
            yield f"ARCHITECTURE.md: module {module} is said to be here, but src/{module} has no code"
    known = [module for module in folders if module in law.state]
    linked = {module: set() for module in known}
    for module in known:
        if not (src / module / "CMakeLists.txt").exists():
            yield f"src/{module}: has no CMakeLists.txt"
        for path in files_below(src, module, ("CMakeLists.txt",)):
            for line, target, word in links_of(path.read_text(encoding="utf-8")):
                at = f"{path.relative_to(root)}:{line}"
                other = word.removeprefix("bloomset::")
                if other in law.state:
                    linked[module].add(other)
                    if target in law.state and target != module:
                        yield f"{at}: links {target}, which is not this folder's module"
                    if other != module and other not in law.may[module]:
                        yield f"{at}: {module} links {other}; it may link only {', '.join(sorted(law.may[module])) or 'nothing'}"
                elif word in law.targets:
                    if module not in law.targets[word]:
                        yield f"{at}: {module} links {word}, which only {', '.join(sorted(law.targets[word]))} may"
                elif not word.startswith(("bloomset_", "${", "$<")):
                    yield f"{at}: {module} links {word}, which ARCHITECTURE.md's tables do not name"
    reach = {}
    for module in known:
        seen, todo = set(), [module]
        while todo:
            for other in linked.get(todo.pop(), ()):
                if other not in seen:
                    seen.add(other)
                    todo.append(other)
        reach[module] = seen
    for module in known:
        for path in files_below(src, module, (".hpp", ".cpp", ".h", ".S")):
            for number, line in enumerate(lines_of(path), 1):
                found = re.match(r'\s*#\s*include\s*([<"])([^>"]+)[>"]', line)
                if not found:
                    continue
                kind, header = found.groups()
                at = f"{path.relative_to(root)}:{number}"
                first = header.split("/")[0]
                if kind == '"':
                    if "/" not in header or first not in law.state:
                        yield f"{at}: \"{header}\": write own headers as \"module/file.hpp\""
                    elif first != module and first not in law.may[module]:
                        yield f"{at}: {module} includes {first}; it may include only {', '.join(sorted(law.may[module])) or 'nothing'}"
                    elif first != module and first not in reach[module] and (src / module / "CMakeLists.txt").exists():
                        yield f"{at}: {module} includes {first}, but its CMakeLists.txt does not link it"
                elif header not in STANDARD:
                    owners = next((o for prefix, o in law.headers.items() if header == prefix or (prefix.endswith("/") and header.startswith(prefix))), None)
                    if owners is None:
                        yield f"{at}: <{header}> is neither the standard library's nor in ARCHITECTURE.md's table of libraries"
                    elif module not in owners:
                        yield f"{at}: <{header}> belongs to {', '.join(sorted(owners))} only, not to {module}"


def check_headers(root):
    for path in files_below(root, "src", (".hpp", ".h")):
        lines = lines_of(path)
        name = str(path.relative_to(root / "src"))
        at = f"{path.relative_to(root)}:1"
        essay = []
        for line in lines:
            if not line.startswith("//"):
                break
            essay.append(line[2:].strip())
        if not essay or not re.match(re.escape(name) + r" - \S", essay[0]):
            yield f"{at}: must open with `// {name} - ` and the question it answers"
        elif len(" ".join(essay)) < 80:
            yield f"{at}: the opening comment is too short to say question, limits and caller"
        if "#pragma once" not in lines:
            yield f"{at}: no #pragma once"


def code_lines(path):
    """(number, line) without comments and without what stands in string literals."""
    text = path.read_text(encoding="utf-8", errors="replace")

    def blank(match):
        keep = match.group()
        return '""' if keep.startswith('"') else "''" if keep.startswith("'") else re.sub(r"[^\n]", " ", keep)

    # The apostrophe of 1'000 opens no character literal: it stands behind a digit or letter.
    text = re.sub(r"//[^\n]*|/\*.*?\*/|\"(?:\\.|[^\"\\\n])*\"|(?<![\w])'(?:\\.|[^'\\\n])+'", blank, text, flags=re.S)
    return enumerate(text.splitlines(), 1)


IMPURE = [
    (r"\bstd\s*::\s*(?:cout|cerr|clog|wcout)\b|(?<!\w)(?:std::)?(?:printf|fprintf|vprintf|puts|fputs|putchar|perror)\s*\(|\bfmt::print\b", "prints"),
    (r"#\s*include\s*<(?:iostream|cstdio|syncstream)>", "can print"),
    (r"#\s*include\s*<(?:fstream|filesystem)>|(?<!\w)(?:std::)?(?:fopen|freopen|opendir)\s*\(|\bstd::(?:i|o)?fstream\b", "reads or writes files"),
    (r"#\s*include\s*<(?:chrono|ctime)>|\bstd::(?:chrono|time|clock)\b|(?<![\w:.>])(?:gettimeofday|clock_gettime)\s*\(", "asks the clock"),
    (r"#\s*include\s*<random>|(?<![\w:.>])(?:std::)?(?:rand|srand)\s*\(|\brandom_device\b", "throws dice"),
    (r"(?<![\w:.>])(?:std::)?(?:getenv|setenv|system)\s*\(", "asks the environment"),
    (r"(?<![\w:.>])(?:std::)?(?:abort|exit|quick_exit|_Exit|terminate)\s*\(", "ends the program"),
    (r"\bthread_local\b", "keeps a changing value"),
    (r"^\s*(?:inline\s+)?static\s+(?!const\b|constexpr\b|constinit\s+const\b|_)(?:inline\s+)?(?!const\b|constexpr\b)[\w:<>,\s&*]+\s+\w+\s*(?:=|;|\{)", "keeps a changing value"),
    (r"^(?:inline\s+)(?!const\b|constexpr\b|namespace\b)[\w:<>,\s&*]+\s+\w+\s*(?:=|;|\{\s*\}|\{\d)", "keeps a changing value"),
]


def check_purity(root):
    law = Law(root)
    for module in law.state:
        if module in ENGINE_LEAVES_OUT:
            continue
        for path in files_below(root / "src", module, (".hpp", ".cpp", ".h")):
            for number, line in code_lines(path):
                for pattern, does in IMPURE:
                    if re.search(pattern, line):
                        yield f"{path.relative_to(root)}:{number}: {module} {does}: `{line.strip()[:80]}`"
                        break


# Spelt in pieces, so that this file keeps its own law.
UNFINISHED = [r"\bTO" + r"DO\b", r"\bFIX" + r"ME\b"]
REGISTRIES = [".".join(p) for p in (("registry", "npmjs", "org"), ("npmjs", "com"), ("deb", "debian", "org"), ("pypi", "org"), ("pythonhosted", "org"), ("crates", "io"), ("proxy", "golang", "org"), ("archive", "ubuntu", "com"))]
MACHINE = [r"(?<![\w.$}-])/wo" + r"rk/", r"(?<![\w-])sha" + r"red/", r"(?<![\w.$}-])/ho" + r"me/\w", r"(?<![\w.$}-])/ro" + r"ot/\w"]
TEXTS = (".hpp", ".cpp", ".h", ".S", ".py", ".sh", ".cmake", ".txt", ".md", ".csv", ".bib", ".toml", ".json", ".ts", ".svelte", ".html", ".css", ".yml", "run")


def check_words(root):
    rules = [(re.compile(p), "an unfinished mark: finish it, or say it in words") for p in UNFINISHED]
    rules += [(re.compile(re.escape(host)), "the address of a package registry") for host in REGISTRIES]
    rules += [(re.compile(p), "a path of one machine") for p in MACHINE]
    for path in files_below(root, ".", TEXTS):
        relative = path.relative_to(root)
        for number, line in enumerate(lines_of(path), 1):
            for pattern, what in rules:
                if pattern.search(line):
                    yield f"{relative}:{number}: {what}: `{line.strip()[:80]}`"
            for name in re.findall(r"(?<![\w/:.-])((?:[\w-]+/)*[\w-]+\.md)\b", line):
                if not any((base / name).exists() for base in (root, path.parent, root / "docs")):
                    yield f"{relative}:{number}: speaks of {name}, which is not in the tree"
            for name in re.findall(r"`((?:src|tests|data|docs|tools|bench|cmake|checks|demo)/[\w./-]*)`", line) if path.suffix == ".md" else ():
                if not (root / name).exists():
                    yield f"{relative}:{number}: speaks of {name}, which is not in the tree"


RULES = {"includes": check_includes, "headers": check_headers, "purity": check_purity, "words": check_words}


def judge(root, rules):
    """All misses of the named rules, as printed lines."""
    misses = []
    for rule in rules:
        try:
            misses += list(RULES[rule](pathlib.Path(root)))
        except Miss as miss:
            misses.append(str(miss))
    return misses


def main(arguments):
    if len(arguments) < 2 or any(rule not in RULES for rule in arguments[1:]):
        print(__doc__, file=sys.stderr)
        return 2
    misses = judge(arguments[0], arguments[1:])
    print("\n".join(misses), end="\n" if misses else "")
    return 1 if misses else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
