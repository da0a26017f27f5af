/** The odometer measured against a known distance. */
export { measuredFactor } from "@/domain/odometer";
