/** So many clients that listen to the event stream and read whatever comes: `node listeners.mjs URL COUNT AUTHORIZATION`. */
import http from 'node:http'

const [, , url = '', count = '0', authorization = ''] = process.argv
const agent = new http.Agent({ keepAlive: true, maxSockets: Number.POSITIVE_INFINITY })
let open = 0
for (let index = 0; index < Number(count); index += 1) {
  http.get(`${url}/v1/events`, { agent, headers: { authorization } }, (answer) => {
    answer.on('data', () => {})
    open += 1
    if (open === Number(count)) console.log('listening')
  })
}
