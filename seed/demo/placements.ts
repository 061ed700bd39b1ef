/** Where pieces stand in the layouts of the demo: rows with aisles, a grid of tables, a stage of decks. */

interface Place {
  readonly furnishingId: string
  readonly xMetres: number
  readonly yMetres: number
  readonly rotationDegrees: number
}

const place = (furnishing: string, xMetres: number, yMetres: number): Place => ({
  furnishingId: `furnishing_${furnishing}`,
  xMetres: Math.round(xMetres * 1000) / 1000,
  yMetres: Math.round(yMetres * 1000) / 1000,
  rotationDegrees: 0,
})

/** Rows of chairs across the room, three blocks of five with two aisles between them. */
export function rows(
  count: number,
  middleXMetres: number,
  firstYMetres: number,
  pitchMetres: number,
): Place[] {
  const [chairMetres, aisleMetres] = [0.5, 1.2]
  const blockMetres = 5 * chairMetres + aisleMetres
  return Array.from({ length: count }, (_, row) =>
    [-1, 0, 1].flatMap((block) =>
      [-2, -1, 0, 1, 2].map((seat) =>
        place(
          'chair',
          middleXMetres + block * blockMetres + seat * chairMetres,
          firstYMetres + row * pitchMetres,
        ),
      ),
    ),
  ).flat()
}

/** Round tables on a grid, from one corner. */
export const grid = (columns: readonly number[], lines: readonly number[]): Place[] =>
  lines.flatMap((yMetres) => columns.map((xMetres) => place('round-table', xMetres, yMetres)))

/** Decks side by side, two deep. */
export const stage = (middleXMetres: number, frontYMetres: number): Place[] =>
  [0, 1].flatMap((line) =>
    [-0.5, 0.5].map((side) => place('deck', middleXMetres + side * 2.44, frontYMetres + 0.61 + line * 1.22)),
  )

export const posts = (xMetres: number, lines: readonly number[]): Place[] =>
  lines.map((yMetres) => place('post-pair', xMetres, yMetres))
