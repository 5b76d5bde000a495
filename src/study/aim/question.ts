/** What is to be run and how its answer is read, so that several questions can go to the threads as one batch. */

import type { DraftResult } from '../work/draft.ts';
import type { Asked, Evaluator } from './evaluator.ts';

export interface Question<Answer> {
  readonly asked: readonly Asked[];
  /** Reads the results, in the order asked. */
  readonly answer: (results: readonly DraftResult[]) => Answer;
}

/** Several questions as one; their answers in their order. */
export function together<Answer>(questions: readonly Question<Answer>[]): Question<readonly Answer[]> {
  return {
    asked: questions.flatMap(({ asked }) => asked),
    answer(results) {
      let next = 0;
      return questions.map(({ asked, answer }) => {
        const from = next;
        next += asked.length;
        return answer(results.slice(from, next));
      });
    },
  };
}

/** Two questions of different sorts as one. */
export function both<A, B>(first: Question<A>, second: Question<B>): Question<readonly [A, B]> {
  const split = first.asked.length;
  return {
    asked: [...first.asked, ...second.asked],
    answer: (results) => [first.answer(results.slice(0, split)), second.answer(results.slice(split))],
  };
}

/** Runs a question; `advance` hears of the runs finished so far. */
export async function answered<Answer>(
  question: Question<Answer>,
  evaluator: Evaluator,
  advance?: (done: number) => void,
): Promise<Answer> {
  return question.answer(await evaluator.results(question.asked, advance));
}
