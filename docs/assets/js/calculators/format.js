// Numbers as readers see them: percentages, ranges, chances, dates.

import { grouped } from "./fields.js";

const FINE_FROM = 400; // seeds from which one decimal of a percentage means something
const SMALL_NUMBERS = ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine",
  "Ten", "Eleven", "Twelve"];

/** Digits of a fraction in percent, without the sign: whole, or one decimal from 400 seeds on. */
export function percentDigits(fraction, n) {
  if (n >= FINE_FROM) return (Math.round(fraction * 1000) / 10).toFixed(1);
  return String(Math.floor(fraction * 100 + 0.5));
}

/** "80 %"; a count that is neither none nor all never reads as 0 or 100 %. */
export function percentOfCount(k, n) {
  const digits = percentDigits(k / n, n);
  const unit = n >= FINE_FROM ? "0.1" : "1";
  if (k > 0 && Number(digits) === 0) return `less than ${unit} %`;
  if (k < n && Number(digits) === 100) return `more than ${n >= FINE_FROM ? "99.9" : "99"} %`;
  return `${digits} %`;
}

/** "49–94 %" */
export function percentRange([low, high], n) {
  return `${percentDigits(low, n)}–${percentDigits(high, n)} %`;
}

/** "17 %"; near certainty in words. */
export function chanceText(chance) {
  if (chance < 0.01) return "less than 1 %";
  if (chance > 0.99) return "more than 99 %";
  return `${Math.round(chance * 100)} %`;
}

/** Percentage points: whole, or one decimal where needed. */
export function pointsText(points) {
  const rounded = Math.round(points * 10) / 10;
  return `${rounded} ${rounded === 1 ? "percentage point" : "percentage points"}`;
}

/** A difference of fractions in percentage points with its sign: "+30 points", "−8 points", "0 points". */
export function signedPoints(fraction) {
  const points = Math.round(fraction * 100);
  const sign = points > 0 ? "+" : points < 0 ? "−" : "";
  return `${sign}${Math.abs(points)} ${Math.abs(points) === 1 ? "point" : "points"}`;
}

/** "−8 to +60 points" */
export function pointsRange(low, high) {
  return `${signedPoints(low).split(" ")[0]} to ${signedPoints(high)}`;
}

/** "Ten seeds", "50 seeds", "One seed": to begin a sentence with. */
export function seedsInWords(n) {
  return `${SMALL_NUMBERS[n] ?? grouped(n)} ${n === 1 ? "seed" : "seeds"}`;
}

/** 21.5 as "21.5 °C", or in °F when that was typed. */
export function temperatureText(celsius, unit) {
  const shown = unit === "f" ? Math.round((celsius * 9) / 5 + 32) : Math.round(celsius * 10) / 10;
  return `${shown} ${unit === "f" ? "°F" : "°C"}`;
}

/** ISO date in the reader's own long form: "12 March 2027". */
export function longDate(iso) {
  const [year, month, day] = iso.split("-").map(Number);
  return new Intl.DateTimeFormat(undefined, { dateStyle: "long" })
    .format(new Date(year, month - 1, day));
}

/** Today as the reader's calendar has it, ISO. */
export function todayIso() {
  const now = new Date();
  const two = (number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** ISO date so many calendar months later; the day is held to the month's end. */
export function addMonths(iso, months) {
  const [year, month, day] = iso.split("-").map(Number);
  const lastDay = new Date(Date.UTC(year, month - 1 + months + 1, 0)).getUTCDate();
  return new Date(Date.UTC(year, month - 1 + months, Math.min(day, lastDay))).toISOString().slice(0, 10);
}

/** "8 months", "2 years and 3 months" */
export function monthsText(months) {
  const [years, rest] = [Math.floor(months / 12), months % 12];
  const parts = [];
  if (years > 0) parts.push(`${years} ${years === 1 ? "year" : "years"}`);
  if (rest > 0 || years === 0) parts.push(`${rest} ${rest === 1 ? "month" : "months"}`);
  return parts.join(" and ");
}
