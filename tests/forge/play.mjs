// Runs the script of one step as the action does: the text becomes the body of an async function. Reads {script, base, payload, repo}
// from standard input; writes {outputs, notices} to standard output, or the error to standard error with exit status 1.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';

const { script, base, payload, repo } = JSON.parse(readFileSync(0, 'utf8'));

/** Fill in a route: path parameters go into the path, the rest into the query (GET) or the body. Fails on a status of 400 or more. */
async function request(route, parameters = {}) {
  const [method, template] = route.split(' ');
  const rest = { ...parameters };
  const path = template.replace(/\{(\w+)\}/g, (_, name) => {
    if (!(name in rest)) throw new Error(`${route}: no ${name}`);
    const value = encodeURIComponent(String(rest[name]));
    delete rest[name];
    return value;
  });
  const sent = method === 'GET' ? {} : { body: JSON.stringify(rest), headers: { 'content-type': 'application/json' } };
  const answer = await fetch(base + path + (method === 'GET' ? `?${new URLSearchParams(rest)}` : ''), { method, ...sent });
  const data = await answer.json();
  if (!answer.ok) throw Object.assign(new Error(`${route}: ${answer.status} ${data.message}`), { status: answer.status });
  return { status: answer.status, data };
}

/** All pages of a list; an answer that wraps the list beside its count is unwrapped, as the action's own library does. */
async function paginate(route, parameters) {
  const all = [];
  for (let page = 1; ; page += 1) {
    const { data } = await request(route, { ...parameters, page });
    const list = Array.isArray(data) ? data : Object.values(data).find(Array.isArray);
    all.push(...list);
    if (list.length < (parameters.per_page ?? 30)) return all;
  }
}

const outputs = {};
const notices = [];
const core = { setOutput: (name, value) => { outputs[name] = value; }, notice: (text) => notices.push(text) };
const AsyncFunction = (async () => {}).constructor;
const given = { github: { request, paginate }, context: { payload, repo }, core, require: createRequire(import.meta.url) };
await new AsyncFunction(...Object.keys(given), script)(...Object.values(given));
process.stdout.write(JSON.stringify({ outputs, notices }));
