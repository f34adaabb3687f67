// Scale files as Sectio writes them (docs/scale-files.md): a key or a degree a line, all strings such
// that JSON reads them too. What the table does not show is kept as it is.

const pairs = text => [...text.matchAll(/(\w+) = ("(?:[^"\\]|\\.)*")/g)].map(([, key, value]) => [key, JSON.parse(value)]);

/// {head: {name, tonic, …}, rest: lines, rows: [{interval, name, …, used}]}
export function read(text) {
  const scale = { head: {}, rest: [], rows: [] };
  let inside = false;
  for (const line of text.split("\n")) {
    if (line.startsWith("degrees = [")) inside = true;
    else if (inside && line.startsWith("  \"")) scale.rows.push({ interval: JSON.parse(line.trim().slice(0, -1)), used: true });
    else if (inside && line.startsWith("  {")) scale.rows.push({ ...Object.fromEntries(pairs(line)), used: true });
    else if (inside) inside = false;
    else if (/^\w+ = "/.test(line)) Object.assign(scale.head, Object.fromEntries(pairs(line)));
    else if (line) scale.rest.push(line);
  }
  return scale;
}

/// The file of those degrees that are used.
export function print({ head, rest, rows }) {
  const quoted = text => JSON.stringify(text).replaceAll("\x7F", "\\u007F"); // the one that TOML minds besides
  const said = object => Object.entries(object).filter(([key, value]) => key !== "used" && value)
    .map(([key, value]) => `${key} = ${quoted(value)}`);
  const degrees = rows.filter(row => row.used && row.interval).map(row => `  { ${said(row).join(", ")} },`);
  return [...said(head), ...rest, "degrees = [", ...degrees, "]", ""].join("\n");
}
