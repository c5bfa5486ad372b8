import type { Edit } from '../../src/job/edits/index.ts';
import { answers, build, INVENTED, INVENTED_PRICES, SOUND_PAINTED, save } from './scenario.ts';

/** A yard behind the workshop, entered on a blank metric grid by typed lengths only. */
export function drawYard(): void {
  // Walked round from the gate: 9.60 east, 4.25 north, 3.45 west, 2.80 north, 6.15 west, 7.05 south.
  const outline = [
    [0, 0],
    [9.6, 0],
    [9.6, 4.25],
    [6.15, 4.25],
    [6.15, 7.05],
    [0, 7.05],
  ] as const;
  const beyond = ['open', 'fence', 'wall', 'wall', 'planting', 'fence'] as const;
  const corners = outline.map(([x, y], k) => ({ id: `y${k + 1}`, x, y, via: null }));
  const edits: Edit[] = [
    {
      type: 'add-sheet',
      args: { id: 'grid', name: 'Yard, by tape', picture: null, fit: { kind: 'metric' } },
    },
    {
      type: 'add-slab',
      args: {
        id: 'yard',
        name: 'Yard',
        sheetId: 'grid',
        corners,
        surface: {
          texture: 'heavy-broom',
          traffic: 'heavy',
          condition: 'painted',
          systemId: 'solvent-borne-paving',
          colour: 'charcoal',
          grip: false,
        },
      },
    },
    ...beyond.map(
      (b, k): Edit => ({ type: 'update-side', args: { slabId: 'yard', cornerId: `y${k + 1}`, beyond: b } }),
    ),
    {
      type: 'add-void',
      args: {
        id: 'plinth',
        name: 'Pump plinth',
        kind: 'plinth',
        sheetId: 'grid',
        shape: { type: 'rectangle', centre: { x: 1.4, y: 5.9 }, lengthM: 1.1, widthM: 0.8, angleRad: 0 },
      },
    },
    {
      type: 'add-void',
      args: {
        id: 'gully',
        name: 'Gully',
        kind: 'pit',
        sheetId: 'grid',
        shape: { type: 'circle', centre: { x: 5.2, y: 2.1 }, radiusM: 0.225 },
      },
    },
  ];
  edits.push(...answers('yard', SOUND_PAINTED), ...INVENTED_PRICES);
  save('yard', build('demo-yard', 'Fernhollow Workshop: yard by tape', INVENTED, edits), {});
}
