// Measures each layer of DXF files with the reader of the package dxf-parser: node measure.cjs FILE...
// Prints JSON: for each file its unit headers and, for each layer, kinds of entities, loops, open ends, box, area, length.
const fs = require("fs");
const DxfParser = require("dxf-parser");

const NEAR = 1e-3;

/** Edge from a to b with bulge; length, twice the area under it against the origin, and its extreme points. */
function edge(a, b, bulge) {
  const chord = Math.hypot(b.x - a.x, b.y - a.y);
  let twice = a.x * b.y - b.x * a.y;
  const points = [a, b];
  if (!bulge) return { a, b, length: chord, twice, points };
  const turn = 4 * Math.atan(bulge);
  const radius = chord / (2 * Math.sin(Math.abs(turn) / 2));
  twice += radius * radius * (turn - Math.sin(turn));
  const away = (chord / 2) / Math.tan(turn / 2);
  const centre = {
    x: (a.x + b.x) / 2 - ((b.y - a.y) / chord) * away,
    y: (a.y + b.y) / 2 + ((b.x - a.x) / chord) * away,
  };
  const begin = Math.atan2(a.y - centre.y, a.x - centre.x);
  for (let quarter = 0; quarter < 4; quarter++) {
    const angle = (quarter * Math.PI) / 2;
    const gone = (((turn > 0 ? angle - begin : begin - angle) % (2 * Math.PI)) + 4 * Math.PI) % (2 * Math.PI);
    if (gone <= Math.abs(turn))
      points.push({ x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) });
  }
  return { a, b, length: radius * Math.abs(turn), twice, points };
}

function polyline(entity) {
  const v = entity.vertices, edges = [];
  for (let n = 0; n < v.length - (entity.shape ? 0 : 1); n++) edges.push(edge(v[n], v[(n + 1) % v.length], v[n].bulge));
  return edges;
}

function arc(entity) {
  const { center: c, radius: r, startAngle: s } = entity;
  const sweep = (((entity.endAngle - s) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  const at = (angle) => ({ x: c.x + r * Math.cos(angle), y: c.y + r * Math.sin(angle) });
  return edge(at(s), at(s + sweep), Math.tan(sweep / 4));
}

function turned(e) {
  return { ...e, a: e.b, b: e.a, twice: -e.twice };
}

/** Chains lone edges; [closed loops of edges, count of edges left open]. */
function chained(edges) {
  const left = [...edges], loops = [];
  let open = 0;
  const near = (p, q) => Math.hypot(p.x - q.x, p.y - q.y) <= NEAR;
  while (left.length) {
    const loop = [left.shift()];
    for (;;) {
      const end = loop[loop.length - 1].b;
      if (near(end, loop[0].a)) break;
      const at = left.findIndex((e) => near(e.a, end) || near(e.b, end));
      if (at < 0) break;
      const [next] = left.splice(at, 1);
      loop.push(near(next.a, end) ? next : turned(next));
    }
    if (near(loop[loop.length - 1].b, loop[0].a)) loops.push(loop);
    else open += loop.length;
  }
  return [loops, open];
}

function measured(text) {
  const drawing = new DxfParser().parseSync(text);
  const layers = {};
  for (const entity of drawing.entities) (layers[entity.layer] ??= []).push(entity);
  const found = {};
  for (const [name, entities] of Object.entries(layers)) {
    const kinds = {}, loops = [], lone = [];
    for (const one of entities) {
      kinds[one.type] = (kinds[one.type] ?? 0) + 1;
      if (one.type === "LWPOLYLINE") (one.shape ? loops.push(polyline(one)) : lone.push(...polyline(one)));
      if (one.type === "LINE") lone.push(edge(one.vertices[0], one.vertices[1], 0));
      if (one.type === "ARC") lone.push(arc(one));
    }
    const [chains, open] = chained(lone);
    loops.push(...chains);
    const all = [...loops.flat(), ...(chains.length ? [] : lone)].flatMap((e) => e.points);
    found[name] = {
      kinds, open, loops: loops.length,
      area: loops.map((l) => Math.abs(l.reduce((sum, e) => sum + e.twice, 0)) / 2),
      length: loops.map((l) => l.reduce((sum, e) => sum + e.length, 0)),
      box: all.length ? [Math.min(...all.map((p) => p.x)), Math.min(...all.map((p) => p.y)),
        Math.max(...all.map((p) => p.x)), Math.max(...all.map((p) => p.y))] : null,
    };
  }
  return { insunits: drawing.header.$INSUNITS, measurement: drawing.header.$MEASUREMENT, layers: found };
}

console.log(JSON.stringify(process.argv.slice(2).map((path) => measured(fs.readFileSync(path, "ascii")))));
