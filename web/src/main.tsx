import { render } from "preact";

render(<h1>Tareway</h1>, document.querySelector("#app") as HTMLElement);
