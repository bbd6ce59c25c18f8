/** One measured value and what each model says of it. */
export interface ResidualRow {
  readonly label: string;
  readonly measured: number;
  readonly models: readonly {
    readonly name: string;
    readonly nominal: number;
    readonly low?: number;
    readonly high?: number;
  }[];
}
