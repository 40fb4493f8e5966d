// What a screen reader is given: the browser's own accessibility tree, a line for each thing that is read, in its order.
//
// The tests of every state write it beside their other results (results/trees); read it there once a screen has changed.

import { mkdir, writeFile } from 'node:fs/promises';

const FOLDER = new URL('results/trees/', import.meta.url);
// Boxes that hold others and say nothing themselves.
const SILENT = new Set(['none', 'generic', 'paragraph', 'InlineTextBox', 'ListMarker', 'RootWebArea', 'LineBreak', 'LabelText', 'emphasis', 'strong', 'Section', 'SvgRoot']);
const TOLD = ['checked', 'pressed', 'expanded', 'level', 'disabled', 'focused', 'modal', 'live', 'current', 'invalid'];

// The tree as text: `button "Start: Angle grinder"`, indented by what holds it.
export async function treeOf(phone) {
  const debuggerOf = await phone.context.newCDPSession(phone.page);
  const { nodes } = await debuggerOf.send('Accessibility.getFullAXTree');
  await debuggerOf.detach();
  const byId = new Map(nodes.map((node) => [node.nodeId, node]));
  const lines = [];
  const read = (node, depth) => {
    const [role, name] = [node.role?.value ?? '', node.name?.value ?? ''];
    const says = !node.ignored && !SILENT.has(role) && (role !== 'StaticText' || name.trim());
    if (says) lines.push(`${'  '.repeat(depth)}${line(node, role, name)}`);
    // What is named by its content is not read twice.
    const holds = says && ['StaticText', 'button', 'link', 'heading', 'checkbox', 'DisclosureTriangle'].includes(role);
    if (!holds) for (const id of node.childIds ?? []) if (byId.has(id)) read(byId.get(id), says ? depth + 1 : depth);
  };
  if (nodes[0]) read(nodes[0], 0);
  return lines.join('\n');
}

function line(node, role, name) {
  const states = (node.properties ?? []).filter(({ name, value }) => TOLD.includes(name) && value.value !== false && value.value !== '');
  const told = states.map(({ name, value }) => (value.value === true ? name : `${name} ${value.value}`));
  const words = [role === 'StaticText' ? 'text' : role, name && JSON.stringify(name), node.value?.value && `= ${node.value.value}`];
  const about = node.description?.value && `(${node.description.value})`;
  return [...words, about, told.length > 0 && `[${told.join(', ')}]`].filter(Boolean).join(' ');
}

// Writes it down under the state's name.
export async function writeTree(phone, state) {
  await mkdir(FOLDER, { recursive: true });
  await writeFile(new URL(`${state.replaceAll(/[^\w]+/g, '-')}.txt`, FOLDER), `${state}\n\n${await treeOf(phone)}\n`);
}
