// Files of this site that a page asks for. Opened from a folder, browsers fetch nothing: there a script beside the file hands it over (build_tools/from_folder.py).

const fromFolder = window.location.protocol === "file:";

function handedOver(address) {
  return new Promise((done, failed) => {
    const script = document.createElement("script");
    script.src = `${address}.js`;
    script.addEventListener("load", () => { script.remove(); done(script.content); });
    script.addEventListener("error", () => { script.remove(); failed(new Error("not there")); });
    document.head.append(script);
  });
}

async function answered(address) {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(String(answer.status));
  return answer;
}

/** What a JSON file holds. Throws when it cannot be had. */
export async function jsonFile(address) {
  return fromFolder ? handedOver(address) : (await answered(address)).json();
}

/** A file's bytes, as a Blob. Throws when it cannot be had. */
export async function blobFile(address) {
  return fromFolder ? new Blob([await handedOver(address)]) : (await answered(address)).blob();
}
