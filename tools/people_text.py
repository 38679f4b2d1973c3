"""What people read: the prose of the pages for users, and the sentences that programs say.

Shared by check_sentences, check_words and check_spelling."""
import pathlib
import re

TOP = pathlib.Path(__file__).resolve().parent.parent

# Pages for those who plan and walk. Method pages, figures and plans are for those who read code,
# but for what a trip file holds and what the verdict means.
NOT_FOR_USERS = {"mutations.md", "results.md", "performance.md", "scale.md"}


def user_pages():
    pages = [TOP / "README.md", TOP / "CHANGELOG.md"]
    pages += sorted(p for p in (TOP / "docs").glob("*.md") if p.name not in NOT_FOR_USERS)
    pages += [TOP / "docs/method" / n for n in ("trip-file.md", "verdict.md", "choosing-the-way.md")]
    return [p for p in pages if p.exists()]


def prose(path):
    """Yields (line number, text) for each paragraph, list item, heading and table cell, without code,
    links' targets and pictures. A block of code is fenced, or set off by four blanks after an empty
    line. What stands under a heading "For scripts" or "Unreleased" is not prose."""
    block, start, fenced, blank, skipped = [], 0, False, True, False
    out = []

    def close():
        if block:
            out.append((start, " ".join(block)))
        block.clear()

    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if line.lstrip().startswith("```"):
            close()
            fenced = not fenced
            continue
        if line.startswith("#"):
            skipped = "For scripts" in line or "Unreleased" in line
        if fenced or skipped:
            continue
        indented = re.match(r" {4,}|\t", line) is not None
        if not line.strip():
            close()
            blank = True
            continue
        if indented and blank and not re.match(r"\s+([*-]|\d+\.) ", line):
            continue  # code; `blank` stays, for the next line of it
        blank = False
        if line.lstrip().startswith("|"):
            close()
            if not re.fullmatch(r"[|\s:-]+", line):
                out += [(number, cell) for cell in line.strip().strip("|").split("|")]
            continue
        if line.startswith("#"):
            close()
            out.append((number, line.lstrip("# ")))
            blank = True
            continue
        if re.match(r"\s*([*-]|\d+\.)\s", line):
            close()
        if not block:
            start = number
        block.append(re.sub(r"^\s*([*-]|\d+\.)\s+", "", line).strip())
    close()
    for number, text in out:
        text = re.sub(r"!\[[^]]*\]\([^)]*\)", " ", text)
        text = re.sub(r"\[([^]]*)\]\([^)]*\)", r"\1", text)
        yield number, re.sub(r"\*\*|(?<!\w)_|_(?!\w)", "", text).strip()


def said_by(path):
    """Yields (line number, text) for each sentence that a source file holds as literals: those with a
    blank between two words. Literals that stand side by side are one."""
    source = path.read_text(encoding="utf-8")
    blanked = re.sub(r'//[^\n"]*(?=\n)|^\s*#\s*include[^\n]*', lambda m: " " * len(m[0]), source, flags=re.M)
    blanked = re.sub(r"R\"(\w*)\(.*?\)\1\"", lambda m: " " * len(m[0]), blanked, flags=re.S)
    literal = r'"((?:\\.|[^"\\\n])*)"'
    for run in re.finditer(literal + r"(?:\s*" + literal + ")*", blanked):
        text = "".join(m[1] for m in re.finditer(literal, run[0]))
        text = text.replace("\\n", "\n").replace('\\"', '"').replace("\\r", "").replace("\\033[K", "")
        if re.search(r"^\s*(SELECT|INSERT|CREATE|PRAGMA|DELETE|UPDATE|<)|xmlns|charset=|; Path=|-src ", text):
            continue  # for other programs
        if re.search(r"[^\W\d]{2,}[,.:;]? +[^\W\d]{2,}", text):
            yield source.count("\n", 0, run.start()) + 1, text


def pairs(path):
    """Yields (line number, English, German) for each row of a table of words in two languages."""
    source = path.read_text(encoding="utf-8")
    literals = r'((?:"(?:\\.|[^"\\\n])*"\s*)+)'
    for row in re.finditer(r"\{" + literals + r",\s*" + literals + r"\}", source):
        whole = ["".join(re.findall(r'"((?:\\.|[^"\\\n])*)"', side)).replace('\\"', '"').replace("\\n", "\n")
                 for side in row.groups()]
        yield source.count("\n", 0, row.start()) + 1, *whole


def speaking_sources():
    """Source files whose sentences people meet: commands, messages, paper."""
    out = []
    for folder in ("apps", "src/lodeway"):
        out += sorted(p for p in (TOP / folder).rglob("*.cpp"))
        out += sorted(p for p in (TOP / folder).rglob("*.hpp"))
    return out


def shown_by_page(path):
    """Yields (line number, text) for the sentences of one file of the page: literals, templates and what
    stands between tags, with a blank between two words."""
    source = path.read_text(encoding="utf-8")
    source = re.sub(r"/\*.*?\*/|<!--.*?-->|<style.*?</style>", lambda m: re.sub(r"[^\n]", " ", m[0]), source,
                    flags=re.S)
    source = re.sub(r"(?m)(^|\s)//[^\n]*|^\s*import[^\n]*", lambda m: " " * len(m[0]), source)
    tags = r"|>([^<>{}]+)(?=[<{])|}([^<>{}();=]+)(?=[<{])" if path.suffix == ".svelte" else ""
    pieces = r"\"((?:\\.|[^\"\\\n])*)\"|'((?:\\.|[^'\\\n])*)'|`([^`]*)`"
    for m in re.finditer(pieces + tags, source):
        text = re.sub(r"\$?\{[^}]*\}", " ", next(g for g in m.groups() if g is not None))
        if re.search(r"[^\W\d]{2,}[,.:;]? +[^\W\d]{2,}", text) and not re.search(r"\bconst\b|;|=>|textarea|color-scheme|^<|&&|\|\||;\n|^\s*\w+ = ", text):
            yield source.count("\n", 0, m.start()) + 1, text


def page_sources():
    return sorted(p for p in (TOP / "web/src").rglob("*") if p.suffix in (".svelte", ".ts") and ".test." not in p.name)


def name_of(path):
    return str(path.relative_to(TOP))
