// The talk with the worker that reads and judges a file: begun with a file, questions and their answers, ended.

export class Conversation {
  #worker = null;
  #asked = 0; // number of the last question
  #answers = new Map(); // number of a question: what to do with its answer
  #heard;
  #broken;

  /** `heard` says by kind what to do with what the worker tells unasked; `broken()` is called where it cannot run. */
  constructor(heard, broken) {
    this.#heard = heard;
    this.#broken = broken;
  }

  get isOn() {
    return this.#worker !== null;
  }

  /** End the last talk and begin one. */
  begin(message) {
    this.end();
    this.#worker = new Worker(new URL("./worker.js", import.meta.url), { type: "module" });
    this.#worker.addEventListener("message", ({ data }) => (this.#heard[data.kind] ?? ((told) => this.#answered(told)))(data));
    this.#worker.addEventListener("error", (event) => {
      event.preventDefault();
      this.#broken();
    });
    this.tell(message);
  }

  end() {
    this.#worker?.terminate();
    this.#worker = null;
    this.#answers.clear();
  }

  tell(message) {
    this.#worker.postMessage(message);
  }

  /** `then` gets the answer; returns the question's number. Without a talk (a key typed just before it ended) nothing is asked. */
  ask(question, then) {
    if (!this.isOn) return null;
    this.#asked += 1;
    this.#answers.set(this.#asked, then);
    this.tell({ ...question, id: this.#asked });
    return this.#asked;
  }

  #answered(answer) {
    const then = this.#answers.get(answer.id);
    this.#answers.delete(answer.id);
    then?.(answer);
  }
}
