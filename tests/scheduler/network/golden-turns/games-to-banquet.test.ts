import { describeGoldenTurn } from './describe-golden-turn.ts'
import { gamesToBanquet } from './games-to-banquet.ts'

describeGoldenTurn(gamesToBanquet)
