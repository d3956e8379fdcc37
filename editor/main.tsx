import { createRoot } from "react-dom/client";

const place = document.querySelector("#sheet");
if (place) createRoot(place).render(<p>The sheet is being drawn.</p>);
