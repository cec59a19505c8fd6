// Every form and link works without script; these make them quicker.
import "./clip.js";
import "./review.js";
import "./live.js";
import "./place.js";
