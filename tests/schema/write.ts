import { writeFileSync } from 'node:fs';
import { SCHEMAS } from './schemas.ts';

for (const [path, make] of Object.entries(SCHEMAS)) {
  writeFileSync(path, `${JSON.stringify(make(), null, 2)}\n`);
}
