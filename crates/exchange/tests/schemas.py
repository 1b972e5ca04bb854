"""Packages against the published schemas of QTI, which may not be handed on: SCHEMAS is a folder with them, as downloaded.

    python3 schemas.py SCHEMAS PACKAGE.zip...

Each XML file of a package is checked by the schema of its root's namespace. What a schema includes or imports is taken from the
folder by its file name; nothing is fetched. Needs lxml.
"""

import pathlib
import sys
import zipfile

from lxml import etree

XSD = "{http://www.w3.org/2001/XMLSchema}"


class InTheFolder(etree.Resolver):
    """Every address by its file name."""

    def __init__(self, files):
        super().__init__()
        self.files = {file.name: file for file in files}

    def resolve(self, url, public_id, context):
        name = url.rsplit("/", 1)[-1]
        if name in self.files:
            return self.resolve_filename(str(self.files[name]), context)
        return None


def main(folder, packages):
    files = sorted(pathlib.Path(folder).rglob("*.xsd"))
    parser = etree.XMLParser(no_network=True, resolve_entities=False)
    parser.resolvers.add(InTheFolder(files))
    roots = {}
    for file in files:
        tree = etree.parse(str(file), parser)
        # A schema that declares the root, not one of its parts.
        names = {element.get("name") for element in tree.getroot().findall(f"{XSD}element")}
        for root in {"assessmentItem", "qti-assessment-item", "manifest"} & names:
            roots.setdefault(tree.getroot().get("targetNamespace"), tree)
    schemas, faults, checked = {}, 0, 0
    for package in packages:
        with zipfile.ZipFile(package) as archive:
            for name in archive.namelist():
                if not name.endswith(".xml"):
                    continue
                document = etree.fromstring(archive.read(name))
                namespace = etree.QName(document).namespace
                if namespace not in roots:
                    print(f"{package}: {name}: no schema of {namespace} in the folder")
                    continue
                if namespace not in schemas:
                    schemas[namespace] = etree.XMLSchema(roots[namespace])
                schema = schemas[namespace]
                checked += 1
                if not schema.validate(document):
                    faults += 1
                    for error in schema.error_log:
                        print(f"{package}: {name}:{error.line}: {error.message}")
    print(f"{checked} files checked, {faults} with faults")
    return 0 if checked and not faults else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))
