import { mount } from "svelte";
import App from "./App.svelte";
import "./styles/tokens.css";

const target = document.getElementById("page");
if (!target) throw new Error("index.html has no #page");
mount(App, { target });
