/** The part of the reader of DXF that tests use; the package ships no types. */
declare module 'dxf' {
  export interface ReadEntity {
    readonly type: string
    readonly layer: string
    readonly x?: number
    readonly y?: number
    readonly r?: number
    readonly closed?: boolean
    readonly vertices?: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[]
    readonly start?: { readonly x: number; readonly y: number }
    readonly end?: { readonly x: number; readonly y: number }
    readonly string?: string
  }
  export function parseString(text: string): {
    readonly header: { readonly insUnits?: number; readonly measurement?: number }
    readonly tables: { readonly layers: Readonly<Record<string, unknown>> }
    readonly entities: readonly ReadEntity[]
  }
}
