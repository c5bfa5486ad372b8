import { drawLane } from './lane.ts';
import { drawPatioPhoto } from './patio-photo.ts';
import { drawWorkshop } from './workshop.ts';
import { drawYard } from './yard.ts';

await drawWorkshop();
drawYard();
await drawPatioPhoto();
drawLane();
