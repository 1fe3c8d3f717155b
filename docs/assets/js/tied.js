/* A sentence that says what is wrong with one of several fields. */

/** Let `said` describe every one of `fields`; returns a function that marks one of them as wrong, and with null none. */
export function tie(fields, said, id) {
  if (said.id === "") said.id = id;
  for (const field of fields) {
    const already = field.getAttribute("aria-describedby")?.split(" ") ?? [];
    field.setAttribute("aria-describedby", [...new Set([...already, said.id])].join(" "));
  }
  return (wrong) => {
    for (const field of fields) {
      if (field === wrong) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    }
  };
}
