import { cutTool } from './cut.ts';
import { drainTool } from './drain.ts';
import { marksTool } from './marks.ts';
import { pitTool } from './pit.ts';
import { postTool } from './post.ts';
import { scaleTool } from './scale.ts';
import { selectTool } from './select.ts';
import { slabTool } from './slab.ts';
import { straightTool } from './straight.ts';
import type { Tool } from './tool.ts';

/** Every tool, in the order they are offered. Each keeps a state of its own shape, which only it looks into. */
export const TOOLS: ReadonlyArray<Tool<unknown>> = [
  selectTool,
  scaleTool,
  marksTool,
  straightTool,
  slabTool,
  cutTool,
  drainTool,
  postTool,
  pitTool,
].map((tool) => tool as Tool<unknown>);

/** @throws when there is no such tool: ids are literals of this program. */
export function toolById(id: string): Tool<unknown> {
  const tool = TOOLS.find((t) => t.id === id);
  if (!tool) throw new Error(`no tool ${id}`);
  return tool;
}
