/** What to buy for this drawing, with the user's own prices. */
import { fileSave } from "browser-fs-access";
import { type JSX, useMemo } from "react";
import { costOf, type MaterialRow, materialsList, type Section, siteOf, totalsOf } from "../../../hydraulics/index.ts";
import { materialWords, pricedIn, shownPrice, sizeNames } from "../../sheet/materialWords.ts";
import { partNameById } from "../../sheet/partName.ts";
import { sentenceIn } from "../../sheet/sentence.ts";
import { formatPrice } from "../../sheet/units.ts";
import { readQuantity, showQuantity } from "../quantity.ts";
import { TypedInput } from "../TypedInput.tsx";
import { useDesk, useProgram } from "../useDesk.ts";
import { wholeFigures } from "../wholeFigures.tsx";
import { materialsCsv } from "./materialsCsv.ts";
import { readPrice } from "./readPrice.ts";
import { usePrices } from "./usePrices.ts";

export function BuySlip({ section }: { readonly section: Section }): JSX.Element {
  const { desk } = useProgram();
  const units = useDesk((state) => state.view.units);
  const { prices, stock, setPrice, setStock } = usePrices();
  const rows = useMemo(() => materialsList(section, { stock }), [section, stock]);
  const { currency } = siteOf(section);
  const sizes = useMemo(() => sizeNames(section), [section]);
  const { total, unpriced } = totalsOf(rows, prices);
  const namesOf = (row: MaterialRow): string => row.parts.map((id) => partNameById(section, id)).join(", ");
  const save = async (): Promise<void> => {
    const text = materialsCsv(section, rows, { prices, currency, system: units });
    // A byte-order mark, or spreadsheets read the letters of another alphabet.
    const blob = new Blob(["\ufeff", text], { type: "text/csv;charset=utf-8" });
    await fileSave(blob, { fileName: "what-to-buy.csv", extensions: [".csv"] }).catch((error: unknown) => {
      if (error instanceof Error && error.name === "AbortError") return;
      desk.say({
        text: `That did not work: ${error instanceof Error ? error.message : String(error)}`,
        tone: "refusal",
      });
    });
  };
  if (rows.length === 0) return <p>There is nothing on this sheet to buy.</p>;
  return (
    <>
      <p className="hint">
        Lengths are the drawing's, from axis to axis. Stock lengths are common practice and may be typed over. Prices
        are yours: this browser keeps them for the next drawing.
      </p>
      <div className="scroll">
        <table className="grid-table buy">
          <caption className="hidden">Materials of this drawing with amounts, prices and costs</caption>
          <thead>
            <tr>
              <th scope="col">what</th>
              <th scope="col" className="figure">
                amount
              </th>
              <th scope="col">sold in</th>
              <th scope="col">price</th>
              <th scope="col" className="figure">
                cost
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => {
              const { what, amount, detail } = materialWords(row, units, sizes);
              const cost = costOf(row, prices);
              const price = prices.get(row.key);
              const { word, per } = pricedIn(row.priced, units);
              return (
                <tr key={row.key}>
                  <th scope="row">
                    {wholeFigures(what)}
                    <div className="hint">{wholeFigures([namesOf(row), detail].filter(Boolean).join(" · "))}</div>
                  </th>
                  <td className="figure">{amount}</td>
                  <td>
                    {row.cutting ? (
                      <TypedInput
                        bare
                        label={`Stock length of ${what}`}
                        text={showQuantity("length", row.cutting.stock, units)}
                        commit={(typed) => {
                          if (typed.trim() === "") return setStock(row.key, null);
                          const read = readQuantity("length", typed, units);
                          if (!read.ok) return read.error;
                          if (read.value < 0.1 || read.value > 1000)
                            return sentenceIn("Sold are lengths of 0.1 to 1000 m.", units, []);
                          return setStock(row.key, read.value);
                        }}
                      />
                    ) : null}
                  </td>
                  <td>
                    <TypedInput
                      bare
                      label={`Price of ${what}, ${word}`}
                      text={price === undefined ? "" : String(shownPrice(price, per))}
                      placeholder={word}
                      commit={(typed) => {
                        if (typed.trim() === "") return setPrice(row.key, null);
                        const read = readPrice(typed, currency);
                        return read.ok ? setPrice(row.key, read.value / per) : read.error;
                      }}
                    />
                  </td>
                  <td className="figure">{cost === null ? "" : formatPrice(cost, "")}</td>
                </tr>
              );
            })}
          </tbody>
          <tfoot>
            <tr>
              <th scope="row">
                Total
                {unpriced > 0 ? <div className="hint">{unpriced} rows have no price and are not in it.</div> : null}
              </th>
              <td colSpan={3} />
              <td className="figure">{formatPrice(total, currency)}</td>
            </tr>
          </tfoot>
        </table>
      </div>
      <div className="acts">
        <button type="button" className="press" onClick={() => void save()}>
          Save as CSV
        </button>
      </div>
    </>
  );
}
