import * as player from "./components.mjs";
import { playAll } from "./items.mjs";

playAll(player);
