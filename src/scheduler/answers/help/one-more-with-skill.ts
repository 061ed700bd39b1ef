/** A skill that the work asks for, in one more person of the crew. */
import { readyAtIn } from '../ready.ts'
import type { Candidate, HelpAsked } from './candidate.ts'

const SKILLS_MOST = 6

/** The one of those without it who is free for longest; a grown-up where the policy has the skill for adults only. */
export function oneMoreWithSkillHelp({ snapshot, circumstances, crew, search }: HelpAsked): Candidate[] {
  const { built, part } = circumstances
  const skills = [...new Set(part.network.tasks.flatMap(({ skill }) => skill ?? []))].sort()
  return skills.slice(0, SKILLS_MOST).flatMap((skill): Candidate[] => {
    const bit = 1 << built.skills.indexOf(skill)
    const adultsOnly = snapshot.policy.adultOnlySkills.includes(skill)
    const [learner] = crew
      .filter(({ lanes }) =>
        lanes.every(
          (lane) =>
            (built.instance.lanes[lane]!.skillMask & bit) === 0 && (!adultsOnly || built.lanes[lane]!.adult),
        ),
      )
      .sort((a, b) => b.freeTicks - a.freeTicks || (a.laneId < b.laneId ? -1 : 1))
    if (!learner) return []
    const lanes = built.instance.lanes.map((lane, index) =>
      learner.lanes.includes(index) ? { ...lane, skillMask: lane.skillMask | bit } : lane,
    )
    const changed = { ...circumstances, built: { ...built, instance: { ...built.instance, lanes } } }
    return [
      {
        change: { kind: 'skill', skill, laneId: learner.laneId },
        what: `The skill ${skill} in one more of the crew`,
        isNeverLater: true,
        readyAt: () => readyAtIn(changed, search),
      },
    ]
  })
}
