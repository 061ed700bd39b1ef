import { banquetToWorship } from './banquet-to-worship.ts'
import { describeGoldenTurn } from './describe-golden-turn.ts'

describeGoldenTurn(banquetToWorship)
