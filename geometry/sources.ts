/** What a piece of linework belongs to. */
export interface Source {
  readonly kind: 'slab' | 'cut' | 'void';
  readonly index: number;
}

/** The outlines and paths of a plan by one number each: first the slabs, then the cuts, then the voids. */
export class Sources {
  readonly count: number;

  constructor(
    readonly slabs: number,
    readonly cuts: number,
    readonly voids: number,
  ) {
    this.count = slabs + cuts + voids;
  }

  ofCut(cut: number): number {
    return this.slabs + cut;
  }

  ofVoid(index: number): number {
    return this.slabs + this.cuts + index;
  }

  isCut(source: number): boolean {
    return source >= this.slabs && source < this.slabs + this.cuts;
  }

  named(source: number): Source {
    if (source < this.slabs) return { kind: 'slab', index: source };
    if (this.isCut(source)) return { kind: 'cut', index: source - this.slabs };
    return { kind: 'void', index: source - this.ofVoid(0) };
  }
}
