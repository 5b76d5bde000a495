/** All rules of thumb, in the order gas meets them. */
import {
  blowdownRule,
  crankcaseRule,
  headerEntryRule,
  passageExitRule,
  passageMachRule,
  pistonSpeedRule,
  transferRule,
} from './flow-rules.ts';
import {
  baffleRule,
  bellyRule,
  diffuserRule,
  lengthRule,
  stingerDiameterRule,
  stingerLengthRule,
} from './pipe-rules.ts';
import type { RuleFinding, RuleInput } from './rule.ts';
import { exhaustDurationRule, landRule, totalWidthRule, widestWindowRule } from './window-rules.ts';

export const RULES: readonly ((input: RuleInput) => RuleFinding)[] = [
  widestWindowRule,
  totalWidthRule,
  landRule,
  exhaustDurationRule,
  blowdownRule,
  transferRule,
  passageExitRule,
  passageMachRule,
  headerEntryRule,
  diffuserRule,
  bellyRule,
  baffleRule,
  stingerDiameterRule,
  stingerLengthRule,
  lengthRule,
  crankcaseRule,
  pistonSpeedRule,
];
