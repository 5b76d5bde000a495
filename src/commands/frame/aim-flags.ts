/** Flags of `aim`: at which speed, what it starts from, what it may move and what it keeps to. */

import { countFlag, overrideFlag, speedFlag } from './flag-values.ts';

export const aimFlags = {
  target: {
    member: 'target',
    syntax: '--rpm <speed>',
    help: "speed to aim at (default: the case's targetSpeed)",
    read: speedFlag,
  },
  from: {
    member: 'from',
    syntax: '--from <start>',
    help: 'start from "handbook", "draft" or the "better" of the two (default: better)',
    words: ['better', 'handbook', 'draft'],
  },
  vary: {
    member: 'vary',
    syntax: '--vary <quantity>',
    help: 'move this, such as header.length or belly.diameter; repeatable',
    repeatable: true,
  },
  limits: {
    member: 'limits',
    syntax: '--limit <path=value>',
    help: 'keep to a constraint of study files, such as "lengthToBaffleEnd.atMost=900 mm"; repeatable',
    read: overrideFlag,
    repeatable: true,
  },
  noRules: {
    member: 'rules',
    syntax: '--no-rules',
    help: 'let the search go beyond the rules of thumb for pipes without paying for it',
  },
  mostDrafts: {
    member: 'mostDrafts',
    syntax: '--drafts <n>',
    help: 'drafts to run at most (default: 240)',
    read: countFlag,
  },
} as const;
