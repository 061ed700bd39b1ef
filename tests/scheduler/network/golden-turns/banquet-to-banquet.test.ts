import { banquetToBanquet } from './banquet-to-banquet.ts'
import { describeGoldenTurn } from './describe-golden-turn.ts'

describeGoldenTurn(banquetToBanquet)
