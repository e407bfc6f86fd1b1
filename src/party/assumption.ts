/** A statement that figures rest on, with its mark. The same shape as the report's, which lies below this room. */
export interface Assumption {
  readonly name: string;
  readonly value: string;
  readonly mark: 'published' | 'common practice' | 'derived' | 'given in the task';
  readonly source: string;
}
