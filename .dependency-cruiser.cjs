const rooms = require('./tests/architecture/rooms.json');

const pattern = (place) => (/\.tsx?$/.test(place) ? `^${place.replaceAll('.', '\\.')}$` : `^${place}/`);

/** One rule a room: it may import itself and what the table says, nothing else of ours. */
const roomRules = Object.entries(rooms).map(([room, mayImport]) => ({
  name: `${room.replace(/\W+/g, '-')}-imports`,
  severity: 'error',
  from: { path: pattern(room) },
  to: { path: '^(src|geometry|tests|demo-plans)/', pathNot: [room, ...mayImport].map(pattern) },
}));

module.exports = {
  forbidden: [
    ...roomRules,
    {
      name: 'no-cycles',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    {
      name: 'only-geometry-uses-polygon-clipping',
      severity: 'error',
      from: { pathNot: '^(geometry|tests)/' },
      to: { path: 'node_modules/polygon-clipping' },
    },
    {
      name: 'react-and-konva-stay-at-the-surface',
      severity: 'error',
      from: { path: '^(geometry|src)/', pathNot: '^src/(board/view|panels|app)/|^src/main\\.tsx$' },
      to: { path: 'node_modules/(react|react-dom|konva|react-konva|zustand)/' },
    },
    {
      name: 'resolvable',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '\\?(raw|url)$|^pdfmake/interfaces$' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default'],
      extensions: ['.ts', '.tsx', '.js', '.json'],
    },
  },
};
