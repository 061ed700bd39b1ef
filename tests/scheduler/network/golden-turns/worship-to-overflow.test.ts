import { describeGoldenTurn } from './describe-golden-turn.ts'
import { worshipToOverflow } from './worship-to-overflow.ts'

describeGoldenTurn(worshipToOverflow)
