import { tr } from '../words/tr.ts';
import { type DefaultValue, valueLookup, valuesOf } from '../working/default-value.ts';
import type { Source } from '../working/source.ts';

const measuring = valuesOf(tr`measuring`);
const tapeClass: Source = {
  kind: 'from memory',
  of: tr`Directive 2014/32/EU, Annex X, material measures of length, class II: ±(0.3 mm + 0.2 mm per metre)`,
};

/** What measuring starts from, which the user may replace as the calculator's values. */
export const MEASURE_VALUES: readonly DefaultValue[] = [
  measuring(
    'measure.tap',
    tr`how far off a point tapped on a picture is, one standard deviation`,
    ['p', 'px'],
    1.5,
    [0, 100],
  ),
  measuring(
    'measure.tape-fixed',
    tr`tape, permissible error whatever the length`,
    ['a', 'mm'],
    0.3,
    [0, 50],
    {
      source: tapeClass,
    },
  ),
  measuring(
    'measure.tape-per-metre',
    tr`tape, permissible error for each metre`,
    ['b', 'mm/m'],
    0.2,
    [0, 50],
    {
      source: tapeClass,
    },
  ),
  measuring(
    'measure.reading',
    tr`setting and reading a tape on concrete, one standard deviation`,
    ['r', 'mm'],
    2,
    [0, 100],
  ),
  measuring(
    'measure.square',
    tr`how far from square a right angle set out by tape is, one standard deviation`,
    ['q', 'mrad'],
    3,
    [0, 100],
    { note: tr`Three millimetres at the end of a metre.` },
  ),
  measuring(
    'measure.tap-page',
    tr`how far off a point tapped on a page is, one standard deviation on paper`,
    ['p', 'pt'],
    0.5,
    [0, 20],
    { note: tr`Half a point is 0.18 mm of paper; nothing where the tap snaps to a line of the page.` },
  ),
  measuring(
    'measure.as-built',
    tr`how far what was built lies from what was drawn, each coordinate, one standard deviation`,
    ['b', 'mm'],
    10,
    [0, 1000],
  ),
  measuring(
    'measure.walk',
    tr`how far off a point recorded on a walk is, each coordinate, one standard deviation`,
    ['w', 'm'],
    3,
    [0, 100],
    { note: tr`A telephone in the open; worse beside walls and under trees.` },
  ),
  measuring(
    'measure.map',
    tr`how far off a point read off a map is, each coordinate, one standard deviation`,
    ['w', 'm'],
    0.3,
    [0, 100],
  ),
  measuring(
    'measure.weld',
    tr`slabs traced on a picture this close to each other touch`,
    ['w', 'mm'],
    5,
    [0, 50],
    { note: tr`Keep it small: far above the tracing error it joins what lies apart.` },
  ),
  measuring(
    'measure.brush-width',
    tr`width of the band along cut-in edges that is brushed, not rolled`,
    ['w', 'mm'],
    75,
    [0, 500],
  ),
];

/** The measuring value in force by its key; an unknown key is a bug. */
export const measureValue = valueLookup(MEASURE_VALUES);
