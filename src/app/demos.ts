import lane from '../../demo-plans/lane/job.json?raw';
import patioPhoto from '../../demo-plans/patio-photo/job.json?raw';
import patioPicture from '../../demo-plans/patio-photo/photo.jpg?url';
import workshop from '../../demo-plans/workshop/job.json?raw';
import workshopPicture from '../../demo-plans/workshop/plan.png?url';
import yard from '../../demo-plans/yard/job.json?raw';
import type { Result } from '../../geometry/result.ts';
import type { Problem } from '../problem.ts';
import { jobFromText } from '../storage/job-files.ts';
import type { KeptJob } from '../storage/job-store.ts';
import { tr } from '../words/tr.ts';

/** A job of an invented place, to look around in. */
export interface Demo {
  readonly id: string;
  readonly label: string;
  readonly text: string;
  readonly pictures: Readonly<Record<string, string>>;
}

export const DEMOS: readonly Demo[] = [
  {
    id: 'workshop',
    label: tr`Four slabs on a site plan`,
    text: workshop,
    pictures: { 'plan.png': workshopPicture },
  },
  { id: 'yard', label: tr`A yard by tape alone`, text: yard, pictures: {} },
  {
    id: 'patio-photo',
    label: tr`A patio on a photo`,
    text: patioPhoto,
    pictures: { 'photo.jpg': patioPicture },
  },
  { id: 'lane', label: tr`A lane off a map, in feet and gallons`, text: lane, pictures: {} },
];

/** Opens a demo with its picture. */
export const openDemo = (demo: Demo): Promise<Result<KeptJob, Problem>> =>
  jobFromText(demo.text, demo.label, async (file) => {
    const url = demo.pictures[file];
    if (!url) return null;
    const answer = await fetch(url);
    return answer.ok ? answer.blob() : null;
  });
