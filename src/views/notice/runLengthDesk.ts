/** Keeps every answer for the session and has the others worked out one after the other, those first that are still asked. */
import { messageOf } from '../../store/messageOf.ts';
import { type KnownRunLengths, questionKey, type RunLengthQuestion } from './questions.ts';

export interface RunLengthState {
  known: KnownRunLengths;
  /** Why nothing is being worked out any more, although it was asked; null while all is well. */
  problem: string | null;
}

export class RunLengthDesk {
  #state: RunLengthState = { known: new Map(), problem: null };
  #waiting: readonly RunLengthQuestion[] = [];
  #isBusy = false;
  readonly #listeners = new Set<() => void>();
  readonly #answer: (question: RunLengthQuestion) => Promise<number>;

  constructor(answer: (question: RunLengthQuestion) => Promise<number>) {
    this.#answer = answer;
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly getState = (): RunLengthState => this.#state;

  /** Takes the place of whatever was asked before and is not answered: nobody waits for that any more. */
  ask(questions: readonly RunLengthQuestion[]): void {
    this.#waiting = questions;
    if (this.#state.problem !== null) this.#set({ ...this.#state, problem: null });
    if (!this.#isBusy) void this.#work();
  }

  async #work(): Promise<void> {
    this.#isBusy = true;
    for (let question = this.#next(); question !== undefined; question = this.#next()) {
      try {
        const runs = await this.#answer(question);
        this.#set({ ...this.#state, known: new Map(this.#state.known).set(questionKey(question), runs) });
      } catch (error) {
        this.#waiting = [];
        this.#set({ ...this.#state, problem: messageOf(error) });
      }
    }
    this.#isBusy = false;
  }

  #next(): RunLengthQuestion | undefined {
    return this.#waiting.find((question) => !this.#state.known.has(questionKey(question)));
  }

  #set(state: RunLengthState): void {
    this.#state = state;
    for (const listener of this.#listeners) listener();
  }
}
