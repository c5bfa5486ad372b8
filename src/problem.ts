import { tr } from './words/tr.ts';

/**
 * Everything that can be wrong with what came in, as plain data: what, where, and the values that matter.
 * `sentence` words each one for a person; nothing else in the program writes such sentences.
 */
export type Problem =
  | { readonly code: 'length/unreadable'; readonly text: string }
  | { readonly code: 'length/out-of-range'; readonly text: string }
  | { readonly code: 'scale/zero'; readonly what: 'length' | 'line' }
  | { readonly code: 'scale/none'; readonly sheet: string }
  | { readonly code: 'marks/tape'; readonly a: number; readonly b: number; readonly count: number }
  | { readonly code: 'tape/corners'; readonly what: string }
  | { readonly code: 'tape/sheet'; readonly sheet: string }
  | { readonly code: 'drawing/broken'; readonly file: string }
  | { readonly code: 'drawing/too-large'; readonly file: string }
  | { readonly code: 'drawing/empty'; readonly file: string; readonly detail: string }
  | { readonly code: 'places/broken'; readonly file: string; readonly detail: string }
  | { readonly code: 'places/empty'; readonly file: string; readonly detail: string }
  | { readonly code: 'places/too-far'; readonly file: string; readonly km: number }
  | { readonly code: 'document/broken'; readonly file: string }
  | { readonly code: 'document/password'; readonly file: string; readonly wrong: boolean }
  | { readonly code: 'document/page'; readonly file: string; readonly page: number; readonly pages: number }
  | { readonly code: 'import/kind'; readonly file: string }
  | { readonly code: 'import/option'; readonly option: string; readonly expected: string }
  | { readonly code: 'sheet/missing'; readonly id: string }
  | { readonly code: 'image/not-an-image'; readonly file: string }
  | { readonly code: 'image/broken'; readonly file: string }
  | {
      readonly code: 'image/too-large';
      readonly file: string;
      readonly width: number;
      readonly height: number;
    }
  | { readonly code: 'image/missing'; readonly sheet: string }
  | { readonly code: 'file/not-json'; readonly file: string; readonly detail: string }
  | { readonly code: 'file/not-a-job'; readonly file: string }
  | { readonly code: 'file/not-a-book'; readonly file: string }
  | { readonly code: 'file/unreadable'; readonly file: string; readonly detail: string }
  | { readonly code: 'file/unwritable'; readonly file: string; readonly detail: string }
  | { readonly code: 'job/newer'; readonly version: number; readonly known: number }
  | { readonly code: 'job/read-only'; readonly version: number; readonly known: number }
  | { readonly code: 'merge/undecided' }
  | { readonly code: 'job/version'; readonly found: string }
  | { readonly code: 'job/field'; readonly path: string; readonly expected: string }
  | { readonly code: 'job/reference'; readonly path: string; readonly id: string }
  | { readonly code: 'outline/too-few'; readonly what: string }
  | { readonly code: 'outline/self-crossing'; readonly what: string; readonly x: number; readonly y: number }
  | { readonly code: 'outline/no-area'; readonly what: string }
  | { readonly code: 'cut/too-short'; readonly what: string }
  | { readonly code: 'cut/outside'; readonly what: string }
  | { readonly code: 'void/no-size'; readonly what: string }
  | { readonly code: 'void/outside'; readonly what: string }
  | { readonly code: 'corner/needed'; readonly slab: string }
  | { readonly code: 'corner/coincides' }
  | {
      readonly code: 'value/out-of-range';
      readonly what: string;
      readonly low: number;
      readonly high: number;
    }
  | { readonly code: 'entity/missing'; readonly what: string; readonly id: string }
  | { readonly code: 'coordinate/too-large'; readonly what: string }
  | { readonly code: 'export/kind'; readonly file: string; readonly known: string }
  | { readonly code: 'export/empty' }
  | { readonly code: 'pack/twice' }
  | { readonly code: 'export/no-plan' }
  | { readonly code: 'export/over-job'; readonly file: string }
  | { readonly code: 'export/nothing' }
  | { readonly code: 'export/failed'; readonly detail: string }
  | { readonly code: 'export/no-place' }
  | { readonly code: 'order/blocked'; readonly sentence: string }
  | { readonly code: 'weather/unknown'; readonly file: string }
  | { readonly code: 'weather/broken'; readonly file: string }
  | { readonly code: 'weather/no-hours'; readonly file: string }
  | { readonly code: 'weather/no-place'; readonly file: string }
  | { readonly code: 'weather/gap'; readonly file: string; readonly at: string }
  | { readonly code: 'weather/odd'; readonly file: string; readonly at: string; readonly field: string }
  | { readonly code: 'weather/missing' }
  | { readonly code: 'program/fault'; readonly detail: string }
  | { readonly code: 'storage/blocked' }
  | { readonly code: 'storage/full' }
  | { readonly code: 'storage/brought-back'; readonly jobs: readonly string[] };

/** One clear sentence: what is wrong, where, and how to mend it. */
export function sentence(p: Problem): string {
  switch (p.code) {
    case 'length/unreadable':
      return tr`“${p.text}” is not a length I can read: type it like 3.45, 3450 mm, 11'4" or 11 ft 4 in.`;
    case 'length/out-of-range':
      return tr`“${p.text}” cannot be the length of a side: type a length above zero and below 100 km.`;
    case 'scale/zero':
      return p.what === 'length'
        ? tr`The known length is zero: type how long that line is on the ground.`
        : tr`The line for the scale has no length: tap two places that are apart.`;
    case 'scale/none':
      return tr`The sheet “${p.sheet}” has no scale yet: choose Scale and mark a line whose length you know.`;
    case 'marks/tape':
      return tr`The tape from mark ${p.a} to mark ${p.b} leads nowhere, there are ${p.count} marks: choose two different ones of them.`;
    case 'tape/corners':
      return tr`${p.what} needs different corners: choose each corner only once.`;
    case 'tape/sheet':
      return tr`Tape goes between corners of one sheet in metres, and “${p.sheet}” is none: draw the slab roughly on a blank grid, then type what was taped.`;
    case 'drawing/broken':
      return tr`The drawing “${p.file}” breaks off or is damaged: save it again from where it came, as DXF, SVG or GeoJSON.`;
    case 'drawing/too-large':
      return tr`The drawing “${p.file}” unfolds to more than 200,000 pieces: save only the layers of the site, and open that.`;
    case 'drawing/empty':
      return tr`There is no outline to measure in “${p.file}” (${p.detail}): choose other layers, or trace over it.`;
    case 'places/broken':
      return tr`“${p.file}” cannot be measured (${p.detail}): mend it where it came from, and open it again.`;
    case 'places/empty':
      return tr`There is no area to measure in “${p.file}” (${p.detail}): walk all the way round the slab, or save it as a polygon.`;
    case 'places/too-far':
      return tr`“${p.file}” reaches over ${Math.round(p.km).toLocaleString('en')} km, which is no site: save only the areas of one place, and open that.`;
    case 'document/broken':
      return tr`The document “${p.file}” is damaged, or no PDF: save it again from where it came, or photograph the plan.`;
    case 'document/password':
      return p.wrong
        ? tr`That password does not open “${p.file}”: try another, or ask whoever sent it.`
        : tr`The document “${p.file}” is locked: give its password, or ask for a copy without one.`;
    case 'document/page':
      return tr`“${p.file}” has ${p.pages === 1 ? tr`one page` : tr`${p.pages} pages`} and no page ${p.page}: choose a page that is there.`;
    case 'import/kind':
      return tr`“${p.file}” is nothing I can measure: open a photo (JPEG, PNG, WebP, HEIC, AVIF), a PDF, a drawing (DXF, SVG), or places (GeoJSON, KML, GPX).`;
    case 'import/option':
      return tr`${p.option} must be ${p.expected}.`;
    case 'sheet/missing':
      return tr`There is no sheet “${p.id}” in this job: open a photo or plan, or start a blank grid.`;
    case 'image/not-an-image':
      return tr`“${p.file}” is not a PNG, JPEG, WebP, HEIC or AVIF picture: export or photograph the plan again and open that.`;
    case 'image/broken':
      return tr`The picture “${p.file}” breaks off or is damaged: copy it again from where it came and open the new copy.`;
    case 'image/too-large':
      return tr`The picture “${p.file}” claims ${p.width} × ${p.height} pixels, more than can be shown: save it smaller than 100 million pixels and 16,000 on a side, and open that.`;
    case 'image/missing':
      return tr`The picture of the sheet “${p.sheet}” is not in this file: the measurements are all here; open the picture again to see it underneath.`;
    case 'file/not-json':
      return tr`“${p.file}” cannot be read as a job (${p.detail}): choose a file that was saved from here.`;
    case 'file/not-a-book':
      return tr`“${p.file}” does not hold what later jobs start with: choose a file that was saved under Papers.`;
    case 'file/not-a-job':
      return tr`“${p.file}” is not a slabwright job: choose a file that was saved from here.`;
    case 'file/unreadable':
      return tr`“${p.file}” cannot be opened (${p.detail}): check its name and that you may read it.`;
    case 'file/unwritable':
      return tr`“${p.file}” cannot be written (${p.detail}): choose another folder or name.`;
    case 'job/newer':
      return tr`This job was saved by a newer slabwright (version ${p.version} of the file, this one knows ${p.known}): update slabwright and open it again.`;
    case 'job/read-only':
      return tr`This job was saved by a newer slabwright (version ${p.version} of the file, this one knows ${p.known}), so it can be looked at and saved as it is, not changed: update slabwright to change it.`;
    case 'merge/undecided':
      return tr`Both copies changed what is listed, so nothing was written: say --take a, b or base to choose whose word holds there.`;
    case 'job/version':
      return tr`The job says it is version ${p.found}, which never existed: open the copy that was saved before it was changed by hand.`;
    case 'job/field':
      return tr`The job is damaged at ${p.path} (${p.expected}): mend that field or open an earlier copy.`;
    case 'job/reference':
      return tr`The job is damaged at ${p.path}: it names “${p.id}”, which is not in the file; mend that name or open an earlier copy.`;
    case 'outline/too-few':
      return tr`${p.what} needs at least three corners, or two and a curved side: add the missing corners.`;
    case 'outline/self-crossing':
      return tr`${p.what} crosses itself near (${p.x.toFixed(2)}, ${p.y.toFixed(2)}): move a corner so that no side crosses another.`;
    case 'outline/no-area':
      return tr`${p.what} encloses no area: move a corner away from the line of the others.`;
    case 'cut/too-short':
      return tr`${p.what} has no length: end it somewhere else than it begins.`;
    case 'cut/outside':
      return tr`${p.what} crosses no slab: draw it from one side of a slab to another.`;
    case 'void/no-size':
      return tr`${p.what} has no size: give it a length and a width above zero.`;
    case 'void/outside':
      return tr`${p.what} lies outside every slab, so nothing is taken out: move it onto a slab or delete it.`;
    case 'corner/needed':
      return tr`“${p.slab}” would keep fewer than three corners: delete the slab instead.`;
    case 'corner/coincides':
      return tr`Two corners of a side would lie on the same spot: drop the corner further away, or delete it.`;
    case 'value/out-of-range':
      return tr`${p.what} must lie between ${p.low} and ${p.high}: type a value in that range.`;
    case 'entity/missing':
      return tr`There is no ${p.what} “${p.id}” in this job: it may have been deleted; choose another.`;
    case 'coordinate/too-large':
      return tr`${p.what} lies more than 1,000 km away from the others: check its coordinates or the scale of the sheet.`;
    case 'export/kind':
      return tr`I cannot tell what to write from “${p.file}”: end the name in ${p.known}.`;
    case 'export/empty':
      return tr`There is no slab in this job yet, so there is no table to write: trace a slab first.`;
    case 'export/over-job':
      return tr`“${p.file}” is a saved job: choose another name, so that it is not written over.`;
    case 'export/nothing':
      return tr`There is nothing to say on the papers that were chosen: choose others, or describe the slabs first.`;
    case 'export/failed':
      return tr`The file could not be written (${p.detail}): take out pictures that other programs cannot show either, and write it again.`;
    case 'export/no-place':
      return tr`No sheet of this job knows where on earth it lies: a map needs one that came from GeoJSON, KML or GPX.`;
    case 'export/no-plan':
      return tr`There is no day plan to write yet: open the weather under Days, or give it with --weather.`;
    case 'pack/twice':
      return tr`Two packs of one size: change the price of the one that is there.`;
    case 'order/blocked':
      return tr`${p.sentence} Nothing is ordered until that is mended, the slab is left uncoated, or a reason to coat it all the same is written down.`;
    case 'weather/unknown':
      return tr`“${p.file}” is no weather that I can read: give a table (CSV) with time, temperature and humidity, an EPW file, or the JSON of a public forecast.`;
    case 'weather/broken':
      return tr`The weather file “${p.file}” breaks off or is damaged: save it again from where it came.`;
    case 'weather/no-hours':
      return tr`There is no hour with both temperature and humidity in “${p.file}”: choose a file that has both, with a time in each line.`;
    case 'weather/no-place':
      return tr`“${p.file}” does not say where its weather is: enter latitude, longitude and the clock’s hours ahead of UTC, and open it again.`;
    case 'weather/gap':
      return tr`In “${p.file}” more than three hours are missing from ${p.at.replace('T', ' ')} on: choose a file without that gap, or cut it off there.`;
    case 'weather/odd':
      return tr`In “${p.file}” the ${p.field} at ${p.at.replace('T', ' ')} is no weather of this world: check its units and mend that line.`;
    case 'weather/missing':
      return tr`There is no weather in this job yet: give a file with --weather, or open one under Days.`;
    case 'program/fault':
      return tr`Something in slabwright went wrong (${p.detail}); what you entered is kept: do it again, and save the job to a file if it stays so.`;
    case 'storage/blocked':
      return tr`The browser does not let me keep the job (a private window, or storage is switched off): save it to a file before you leave.`;
    case 'storage/full':
      return tr`The browser has no room left for the job: save it to a file, then delete old jobs or pictures.`;
    case 'storage/brought-back':
      return tr`The browser had lost what it kept; ${p.jobs.map((name) => `“${name}”`).join(', ')} came back from a second copy: look at the last change, and make it again if it is missing.`;
    default:
      return unreachable(p);
  }
}

function unreachable(p: never): never {
  throw new Error(`No sentence for ${JSON.stringify(p)}`);
}
