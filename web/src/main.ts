import { mount } from "svelte";
import App from "./App.svelte";
import { holdFocus } from "./shell/hold_focus";
import "./styles/tokens.css";

const target = document.getElementById("page");
if (!target) throw new Error("index.html has no #page");
mount(App, { target });
holdFocus();
