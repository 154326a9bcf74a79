/** The part of highs 1.15 that we use; its own types do not fit the way in which Node imports it. */
declare module 'highs' {
  export interface Model {
    readonly options: { set(values: Readonly<Record<string, boolean | number | string>>): unknown }
    readonly info: { get(name: string): number | bigint }
    run(): { readonly modelStatus: number }
    getSolution(): { readonly colValue: Float64Array | undefined }
    getObjectiveValue(): number
    getColName(column: number): string
    dispose(): void
  }
  export interface Library {
    readonly constants: { readonly modelStatus: { readonly optimal: number } }
    createModel(model: { readonly format: 'lp'; readonly data: string }): Model
  }
  export default function load(): Promise<Library>
}
