/** The solver's answer to the question of the moment; the one before stands until it is there. */
import { useEffect, useState } from "preact/hooks";
import { answerOf, type LeastChange, type Question } from "@/services/change";
import { useGiven } from "@/ui/context";

export interface Solved {
  readonly question: Question;
  readonly change: LeastChange;
}

export interface Solving {
  readonly solved: Solved | null;
  /** The answer is of an earlier question. */
  readonly busy: boolean;
  /** How many moves the round that is being looked at allows. */
  readonly round: number;
  readonly trouble: string | null;
}

export function useSolved(question: Question | null): Solving {
  const { solver } = useGiven().app;
  const [solved, setSolved] = useState<Solved | null>(null);
  const [round, setRound] = useState(0);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => {
    if (!question) return;
    let here = true;
    setTrouble(null);
    setRound(0);
    solver(question.problem, (moves) => here && setRound(moves)).then(
      (advice) => here && setSolved({ question, change: answerOf(question, advice) }),
      (error: unknown) => here && setTrouble(error instanceof Error ? error.message : String(error)),
    );
    return () => {
      here = false;
    };
  }, [question]);
  return { solved, busy: question !== null && solved?.question !== question, round, trouble };
}
