"""The list of packages as a CycloneDX 1.6 bill of materials (SBOM): the same bytes wherever and whenever it is made."""

from __future__ import annotations

import json
import uuid
from collections.abc import Mapping, Sequence
from datetime import datetime, timezone

from .listed import Package
from .passed_on import Part

SELF = "germination-reference"
NAMESPACE = uuid.uuid5(uuid.NAMESPACE_URL, "urn:cyclonedx:germination-reference")
PROPERTY = f"{SELF}:"


def bill(packages: Sequence[Package], parts: Sequence[Part], hashes: Mapping[tuple[str, str], Sequence[str]], library: Mapping, asked: Sequence[str], version_date: int) -> str:
    """The JSON text. `packages`: what it lists; `hashes`: (name, version) → SHA-256 of the files that may be installed; `asked`: names that
    are asked for directly; `version_date`: seconds (UTC) of the data version, which stands for the time.

    Test packages are in scope "excluded". A part without a package of its own in the lock stands inside the package that brings it.
    """
    names = {p.name for p in packages}
    by_name = {name: [p.purl for p in packages if p.name == name] for name in names}
    document = {
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {
            "timestamp": datetime.fromtimestamp(version_date, timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ"),
            "lifecycles": [{"phase": "pre-build"}],
            "component": {
                "type": "application", "bom-ref": SELF, "name": SELF, "version": str(library["data_version"]),
                "description": "A site built from data on seed germination, and what builds it.",
                "licenses": [{"license": {"id": "MIT", "acknowledgement": "declared"}}, {"license": {"name": f"{library['data_licence']} (data)", "acknowledgement": "declared"}}],
            },
        },
        "components": [_component(p, [part for part in parts if part.package == p.name], hashes.get((p.name, p.version), ())) for p in packages],
        "dependencies": [
            {"ref": SELF, "dependsOn": sorted(purl for name in set(asked) & names for purl in by_name[name])},
            *({"ref": p.purl, "dependsOn": sorted(purl for name in p.requires if name in names for purl in by_name[name])} for p in packages),
        ],
    }
    # The serial number is that of the content, so that another content has another one and the same has the same.
    serial = uuid.uuid5(NAMESPACE, json.dumps(document, sort_keys=True))
    return json.dumps({"bomFormat": document.pop("bomFormat"), "specVersion": document.pop("specVersion"), "serialNumber": f"urn:uuid:{serial}", **document}, indent=1, ensure_ascii=False) + "\n"


def _component(package: Package, parts: Sequence[Part], hashes: Sequence[str]) -> dict:
    component = {
        "type": "library", "bom-ref": package.purl, "name": package.name, "version": package.version,
        "scope": "required" if package.use == "site" else "excluded",
        "licenses": [{"expression": package.licence, "acknowledgement": "declared"}],
        "purl": package.purl,
    }
    if hashes:
        # A version has one file for each system, and a component one hash: so they stand with where it is distributed.
        component["externalReferences"] = [{"type": "distribution", "url": package.purl, "comment": "One hash for each wheel that may be installed.", "hashes": [{"alg": "SHA-256", "content": digest} for digest in hashes]}]
    inside = [_part(part) for part in parts if not part.whole]
    properties = [("marker", package.marker), ("reason", package.reason)]
    if any(value for _, value in properties):
        component["properties"] = [{"name": PROPERTY + key, "value": value} for key, value in properties if value]
    if inside:
        component["components"] = inside
    return component


def _part(part: Part) -> dict:
    found = {"type": "library", "bom-ref": f"{part.package}/{part.id}", "name": part.name, "description": part.what[:1].upper() + part.what[1:] + ".", "licenses": [{"expression": part.licence, "acknowledgement": "declared"}]}
    return {**found, **({"version": part.version} if part.version else {}), **({"purl": part.purl} if part.purl else {})}
