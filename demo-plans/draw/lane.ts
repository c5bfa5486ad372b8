import type { Edit } from '../../src/job/edits/index.ts';
import { answers, build, INVENTED, INVENTED_PRICES, SOUND_BARE, save } from './scenario.ts';

/** Far out at sea, where nobody has a lane: a place for the map of an invented job. */
const AT_SEA = { latitude: -48.9, longitude: -123.4 };

/** A lane with a turning circle and a ramp, traced on a map, in feet and gallons: all sides are metres east and north. */
export function drawLane(): void {
  const corner = (id: string, x: number, y: number, via: readonly [number, number] | null = null) => ({
    id,
    x,
    y,
    via: via && { x: via[0], y: via[1] },
  });
  const edits: Edit[] = [
    { type: 'change-settings', args: { units: 'us' } },
    {
      type: 'add-sheet',
      args: {
        id: 'map',
        name: 'Map of the lane',
        picture: null,
        fit: { kind: 'georeferenced', ...AT_SEA, from: 'map', deviationM: 0.05 },
      },
    },
    {
      type: 'add-slab',
      args: {
        id: 'lane',
        name: 'Lane',
        sheetId: 'map',
        // Twelve metres of lane, four wide, and at its end a turning circle of six metres across.
        corners: [
          corner('l1', 0, 0),
          corner('l2', 12, 0, [17.3, 2]),
          corner('l3', 12, 4),
          corner('l4', 0, 4),
        ],
        surface: {
          texture: 'light-broom',
          traffic: 'cars',
          condition: 'bare',
          systemId: 'water-borne-paving',
          colour: 'slate',
          grip: false,
        },
      },
    },
    {
      type: 'add-slab',
      args: {
        id: 'ramp',
        name: 'Ramp to the shed',
        sheetId: 'map',
        corners: [
          { ...corner('r1', 4, 4), id: 'r1' },
          corner('r2', 6.4, 4),
          corner('r3', 6.4, 9.5),
          corner('r4', 4, 9.5),
        ],
        surface: {
          texture: 'heavy-broom',
          traffic: 'foot',
          condition: 'bare',
          systemId: 'water-borne-paving',
          colour: 'slate',
          grip: true,
        },
      },
    },
    { type: 'update-slab', args: { slabId: 'ramp', slope: 1 / 12 } },
    {
      type: 'add-void',
      args: {
        id: 'gully',
        name: 'Gully',
        kind: 'pit',
        sheetId: 'map',
        shape: { type: 'circle', centre: { x: 14.2, y: 2 }, radiusM: 0.3 },
      },
    },
    {
      type: 'add-void',
      args: {
        id: 'channel',
        name: 'Channel',
        kind: 'drain',
        sheetId: 'map',
        shape: { type: 'line', a: { x: 4.2, y: 4.4 }, b: { x: 6.2, y: 4.4 }, widthM: 0.12 },
      },
    },
    { type: 'update-side', args: { slabId: 'lane', cornerId: 'l4', beyond: 'open', exit: true } },
    { type: 'update-side', args: { slabId: 'lane', cornerId: 'l1', beyond: 'planting' } },
    { type: 'update-side', args: { slabId: 'lane', cornerId: 'l2', beyond: 'kerb' } },
    { type: 'update-side', args: { slabId: 'ramp', cornerId: 'r3', beyond: 'threshold' } },
    ...answers('lane', SOUND_BARE),
    ...answers('ramp', SOUND_BARE),
    ...INVENTED_PRICES,
    {
      type: 'change-settings',
      args: { currency: 'USD', tax: { ruleId: 'us-sales', ratePct: 6.25, per: 'total', on: 'materials' } },
    },
    {
      type: 'set-customer',
      args: { name: 'The lane’s owners (invented)', address: 'Fernhollow, far out at sea', site: '' },
    },
  ];
  save('lane', build('demo-lane', 'Fernhollow Workshop: the lane', INVENTED, edits), {});
}
