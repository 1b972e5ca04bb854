import { playAll } from "./items.mjs";
import * as player from "./vue.mjs";

playAll(player);
