/** The shortcuts of the home screen: to the vehicle that was open last, or to the only one. */
import { useEffect, useState } from "preact/hooks";
import { useGiven, useUser } from "@/ui/context";
import { useBooks } from "@/ui/parts/watch";

export function useLastVehicle(task: "weigh" | "fuel"): void {
  const user = useUser();
  const { go } = useGiven().router;
  const books = useBooks();
  const [last, setLast] = useState<string | null | undefined>(undefined);
  useEffect(() => {
    void user.lastOpened().then(setLast);
  }, [user]);
  useEffect(() => {
    if (books === null || last === undefined) return;
    const book = books.find((one) => one.book === last) ?? books[0];
    go(book ? `/b/${book.book}/${task}` : "/", { replace: true });
  }, [books, last]);
}
