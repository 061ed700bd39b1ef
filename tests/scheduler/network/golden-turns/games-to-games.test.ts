import { describeGoldenTurn } from './describe-golden-turn.ts'
import { gamesToGames } from './games-to-games.ts'

describeGoldenTurn(gamesToGames)
